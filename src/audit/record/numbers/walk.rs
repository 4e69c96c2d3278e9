//! A walk over everything that an arrangement writes of itself, which looks at the numbers alone and
//! keeps nothing but what is wrong. A value that is written as nothing counts as a number that is not
//! finite: fields without a value are left out, so nothing else is.

use serde::ser::{
    Error as _, Serialize, SerializeMap, SerializeSeq, SerializeStruct, SerializeStructVariant,
    SerializeTuple, SerializeTupleStruct, SerializeTupleVariant, Serializer,
};
use std::fmt;

/// The axes of a corner, by the names of its fields.
const AXES: [&str; 3] = ["x_mm", "y_mm", "z_mm"];

/// What can be wrong with a number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Fault {
    /// Not finite, or written as nothing.
    NotFinite,
    /// Less than 0 where nothing can be.
    Negative(f64),
    /// The lesser corner of a block lies beyond the greater one along this axis.
    CornersOutOfOrder(&'static str),
}

/// One step from a value to a value in it.
#[derive(Debug)]
enum Step {
    Field(&'static str),
    Key(String),
    Item(usize),
}

/// What is known of a value while what is in it is looked at.
#[derive(Debug, Default)]
struct Frame {
    /// Its own coordinates, where it is a corner.
    corner: [Option<f64>; 3],
    /// Its corners, where it is a block.
    corners: [Option<[Option<f64>; 3]>; 2],
}

/// The walk: where it is, and what was wrong so far, with its path.
#[derive(Debug)]
pub(super) struct Walk {
    start: &'static str,
    steps: Vec<Step>,
    frames: Vec<Frame>,
    pub(super) faults: Vec<(String, Fault)>,
}

impl Walk {
    /// A walk that calls the whole by this name.
    pub(super) fn new(start: &'static str) -> Self {
        Self {
            start,
            steps: Vec::new(),
            frames: Vec::new(),
            faults: Vec::new(),
        }
    }

    /// Where it is, as `arrangement.rails[2].x_mm`.
    fn path(&self) -> String {
        let mut path = self.start.to_string();
        for step in &self.steps {
            match step {
                Step::Field(name) => path.extend([".", name]),
                Step::Key(name) => path.extend([".", name.as_str()]),
                Step::Item(index) => path += &format!("[{index}]"),
            }
        }
        path
    }

    /// The name of the nearest field: items of a list bear that of their list.
    fn name(&self) -> &str {
        let named = self.steps.iter().rev().find_map(|step| match step {
            Step::Field(name) => Some(*name),
            Step::Key(name) => Some(name.as_str()),
            Step::Item(_) => None,
        });
        named.unwrap_or("")
    }

    fn fault(&mut self, fault: Fault) {
        self.faults.push((self.path(), fault));
    }

    fn number(&mut self, number: f64) {
        if !number.is_finite() {
            return self.fault(Fault::NotFinite);
        }
        if number < 0.0 && !may_be_negative(self.name()) {
            self.fault(Fault::Negative(number));
        }
        let axis = match self.steps.last() {
            Some(Step::Field(name)) => AXES.iter().position(|axis| axis == name),
            _ => None,
        };
        if let Some((axis, frame)) = axis.zip(self.frames.last_mut()) {
            frame.corner[axis] = Some(number);
        }
    }

    /// Looks at a value one step further in.
    fn within<T: ?Sized + Serialize>(&mut self, step: Step, value: &T) -> Result<(), Unwritable> {
        self.steps.push(step);
        let seen = value.serialize(&mut *self);
        self.steps.pop();
        seen
    }

    fn open(&mut self) -> Group<'_> {
        self.frames.push(Frame::default());
        Group {
            walk: self,
            items: 0,
        }
    }

    fn close(&mut self) {
        let Some(frame) = self.frames.pop() else {
            return;
        };
        if let [Some(least), Some(most)] = frame.corners {
            for (axis, (least, most)) in AXES.iter().zip(least.into_iter().zip(most)) {
                if least.zip(most).is_some_and(|(least, most)| least > most) {
                    self.fault(Fault::CornersOutOfOrder(axis));
                }
            }
        }
        let end = match self.steps.last() {
            Some(Step::Field("min")) => 0,
            Some(Step::Field("max")) => 1,
            _ => return,
        };
        if let Some(block) = self.frames.last_mut() {
            block.corners[end] = Some(frame.corner);
        }
    }
}

/// Coordinates, and temperatures.
fn may_be_negative(name: &str) -> bool {
    matches!(name, "x_mm" | "y_mm" | "z_mm" | "u_mm" | "v_mm") || name.ends_with("_c")
}

/// A value with others in it, while they are looked at.
pub(super) struct Group<'w> {
    walk: &'w mut Walk,
    items: usize,
}

impl Group<'_> {
    fn item<T: ?Sized + Serialize>(&mut self, value: &T) -> Result<(), Unwritable> {
        let step = Step::Item(self.items);
        self.items += 1;
        self.walk.within(step, value)
    }

    fn field<T: ?Sized + Serialize>(
        &mut self,
        name: &'static str,
        value: &T,
    ) -> Result<(), Unwritable> {
        self.walk.within(Step::Field(name), value)
    }

    fn ended(self) -> Result<(), Unwritable> {
        self.walk.close();
        Ok(())
    }
}

/// Why something cannot be written out.
#[derive(Debug)]
pub(super) struct Unwritable(String);

impl fmt::Display for Unwritable {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

impl std::error::Error for Unwritable {}

impl serde::ser::Error for Unwritable {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Self(message.to_string())
    }
}

/// Numbers of each type, as the widest one.
macro_rules! numbers {
    ($($method:ident $type:ty),*) => {$(
        fn $method(self, number: $type) -> Result<(), Unwritable> {
            self.number(number as f64);
            Ok(())
        }
    )*};
}

impl<'w> Serializer for &'w mut Walk {
    type Ok = ();
    type Error = Unwritable;
    type SerializeSeq = Group<'w>;
    type SerializeTuple = Group<'w>;
    type SerializeTupleStruct = Group<'w>;
    type SerializeTupleVariant = Group<'w>;
    type SerializeMap = Group<'w>;
    type SerializeStruct = Group<'w>;
    type SerializeStructVariant = Group<'w>;

    numbers! {
        serialize_i8 i8, serialize_i16 i16, serialize_i32 i32, serialize_i64 i64, serialize_u8 u8,
        serialize_u16 u16, serialize_u32 u32, serialize_u64 u64, serialize_f32 f32, serialize_f64 f64
    }

    fn serialize_bool(self, _: bool) -> Result<(), Unwritable> {
        Ok(())
    }

    fn serialize_char(self, _: char) -> Result<(), Unwritable> {
        Ok(())
    }

    fn serialize_str(self, _: &str) -> Result<(), Unwritable> {
        Ok(())
    }

    fn serialize_bytes(self, _: &[u8]) -> Result<(), Unwritable> {
        Ok(())
    }

    fn serialize_none(self) -> Result<(), Unwritable> {
        self.fault(Fault::NotFinite);
        Ok(())
    }

    fn serialize_some<T: ?Sized + Serialize>(self, value: &T) -> Result<(), Unwritable> {
        value.serialize(self)
    }

    fn serialize_unit(self) -> Result<(), Unwritable> {
        self.serialize_none()
    }

    fn serialize_unit_struct(self, _: &'static str) -> Result<(), Unwritable> {
        self.serialize_none()
    }

    fn serialize_unit_variant(
        self,
        _: &'static str,
        _: u32,
        _: &'static str,
    ) -> Result<(), Unwritable> {
        Ok(())
    }

    fn serialize_newtype_struct<T: ?Sized + Serialize>(
        self,
        _: &'static str,
        value: &T,
    ) -> Result<(), Unwritable> {
        value.serialize(self)
    }

    fn serialize_newtype_variant<T: ?Sized + Serialize>(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        value: &T,
    ) -> Result<(), Unwritable> {
        self.within(Step::Field(variant), value)
    }

    fn serialize_seq(self, _: Option<usize>) -> Result<Group<'w>, Unwritable> {
        Ok(self.open())
    }

    fn serialize_tuple(self, _: usize) -> Result<Group<'w>, Unwritable> {
        Ok(self.open())
    }

    fn serialize_tuple_struct(self, _: &'static str, _: usize) -> Result<Group<'w>, Unwritable> {
        Ok(self.open())
    }

    fn serialize_tuple_variant(
        self,
        _: &'static str,
        _: u32,
        _: &'static str,
        _: usize,
    ) -> Result<Group<'w>, Unwritable> {
        Ok(self.open())
    }

    fn serialize_map(self, _: Option<usize>) -> Result<Group<'w>, Unwritable> {
        Ok(self.open())
    }

    fn serialize_struct(self, _: &'static str, _: usize) -> Result<Group<'w>, Unwritable> {
        Ok(self.open())
    }

    fn serialize_struct_variant(
        self,
        _: &'static str,
        _: u32,
        _: &'static str,
        _: usize,
    ) -> Result<Group<'w>, Unwritable> {
        Ok(self.open())
    }
}

/// Groups whose members have no names.
macro_rules! lists {
    ($($kind:ident $method:ident),*) => {$(
        impl $kind for Group<'_> {
            type Ok = ();
            type Error = Unwritable;

            fn $method<T: ?Sized + Serialize>(&mut self, value: &T) -> Result<(), Unwritable> {
                self.item(value)
            }

            fn end(self) -> Result<(), Unwritable> {
                self.ended()
            }
        }
    )*};
}

lists! {
    SerializeSeq serialize_element, SerializeTuple serialize_element,
    SerializeTupleStruct serialize_field, SerializeTupleVariant serialize_field
}

/// Groups whose members have the names of fields.
macro_rules! records {
    ($($kind:ident),*) => {$(
        impl $kind for Group<'_> {
            type Ok = ();
            type Error = Unwritable;

            fn serialize_field<T: ?Sized + Serialize>(
                &mut self,
                name: &'static str,
                value: &T,
            ) -> Result<(), Unwritable> {
                self.field(name, value)
            }

            fn end(self) -> Result<(), Unwritable> {
                self.ended()
            }
        }
    )*};
}

records! { SerializeStruct, SerializeStructVariant }

impl SerializeMap for Group<'_> {
    type Ok = ();
    type Error = Unwritable;

    fn serialize_key<T: ?Sized + Serialize>(&mut self, _: &T) -> Result<(), Unwritable> {
        Err(Unwritable::custom("a key of a map without its value"))
    }

    fn serialize_value<T: ?Sized + Serialize>(&mut self, _: &T) -> Result<(), Unwritable> {
        Err(Unwritable::custom("a value of a map without its key"))
    }

    fn serialize_entry<K: ?Sized + Serialize, V: ?Sized + Serialize>(
        &mut self,
        key: &K,
        value: &V,
    ) -> Result<(), Unwritable> {
        // Keys are written as JSON writes them; one that is no text cannot be one there either.
        let key = match serde_json::to_value(key) {
            Ok(serde_json::Value::String(key)) => key,
            Ok(other) => other.to_string(),
            Err(error) => return Err(Unwritable(error.to_string())),
        };
        self.walk.within(Step::Key(key), value)
    }

    fn end(self) -> Result<(), Unwritable> {
        self.ended()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn faults(value: &impl Serialize) -> Vec<(String, Fault)> {
        let mut walk = Walk::new("file");
        value.serialize(&mut walk).expect("it can be written");
        walk.faults
    }

    #[derive(serde::Serialize)]
    struct Corner {
        x_mm: f64,
        y_mm: f64,
        z_mm: f64,
    }

    #[derive(serde::Serialize)]
    struct Body {
        min: Corner,
        max: Corner,
    }

    fn corner([x_mm, y_mm, z_mm]: [f64; 3]) -> Corner {
        Corner { x_mm, y_mm, z_mm }
    }

    #[test]
    fn each_fault_is_told_with_its_path() {
        assert_eq!(
            faults(&json!({"rails": [{"width_mm": 1.0}, {"width_mm": -2.0}]})),
            [("file.rails[1].width_mm".to_string(), Fault::Negative(-2.0))]
        );
        assert_eq!(
            faults(&json!({"walls": {"top": null}})),
            [("file.walls.top".to_string(), Fault::NotFinite)]
        );
        assert_eq!(
            faults(&[1.0, f64::NAN]),
            [("file[1]".to_string(), Fault::NotFinite)]
        );
    }

    #[test]
    fn coordinates_and_temperatures_may_be_negative() {
        assert_eq!(
            faults(&json!({"at": {"x_mm": -1.0, "u_mm": -1.0}, "service_c": [-20.0, 40.0]})),
            []
        );
    }

    #[test]
    fn corners_are_in_order_along_every_axis() {
        let sound = Body {
            min: corner([0.0, -5.0, 0.0]),
            max: corner([1.0, -5.0, 0.5]),
        };
        assert_eq!(faults(&sound), []);
        let turned = Body {
            min: corner([0.0, 2.0, 1.0]),
            max: corner([1.0, 1.0, 0.0]),
        };
        let found = [sound, turned];
        assert_eq!(
            faults(&found),
            [
                ("file[1]".to_string(), Fault::CornersOutOfOrder("y_mm")),
                ("file[1]".to_string(), Fault::CornersOutOfOrder("z_mm")),
            ]
        );
    }
}
