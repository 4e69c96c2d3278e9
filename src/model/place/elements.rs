//! Positions of operating elements on the lid.

use super::{clean, clean_block};
use crate::arrangement::{ContactPoint, EnclosureRecord, PlacedContact, PlacedElement};
use crate::catalogue::CircuitKind;
use crate::demand::{Demand, ElementNeed};
use crate::model::decide::Decided;
use crate::model::lid::{across, lid_problem};
use crate::requirements::RequirementList;
use crate::space::{Block, Point, Rect, down_to_tenth};
use crate::workshop::Workshop;

/// Places the rows of elements: spread over the height of the rectangle, and across it as the list asks.
pub(super) fn place(
    list: &RequirementList,
    demand: &Demand<'_>,
    mounted: &EnclosureRecord,
    workshop: &Workshop,
    decided: &Decided,
) -> Vec<PlacedElement> {
    let problem = lid_problem(list, demand, &workshop.limits());
    let rect = decided.lid_rect;
    let spare_mm = (rect.height_mm - problem.height_mm(&decided.lid)).max(0.0);
    let extra_mm = down_to_tenth(spare_mm / (decided.lid.len() + 1) as f64);
    let across = across(&problem, &decided.lid, rect.width_mm);
    let mut placed = Vec::new();
    let mut top_mm = rect.top_mm() - extra_mm;
    for (row_index, row) in across.rows.iter().enumerate() {
        let height_mm = problem.row_height_mm(row);
        let centre_y_mm = top_mm - height_mm / 2.0;
        for item in row {
            let known = &problem.items[*item];
            let mut needs = demand.elements.iter();
            if let Some(need) = needs.find(|need| need.index == known.element) {
                let centre = (rect.u_mm + across.centre_mm[*item], centre_y_mm);
                let row = row_index as u32 + 1;
                placed.push(element_at(list, mounted, need, centre, row));
            }
        }
        top_mm -= height_mm + extra_mm;
        if let Some(next) = across.rows.get(row_index + 1) {
            top_mm -= problem.row_gap_mm(row, next);
        }
    }
    placed
}

fn element_at(
    list: &RequirementList,
    mounted: &EnclosureRecord,
    need: &ElementNeed<'_>,
    centre: (f64, f64),
    row: u32,
) -> PlacedElement {
    let requirement = &list.elements[need.index];
    let part = need.part;
    let (x_mm, y_mm) = (clean(centre.0), clean(centre.1));
    let [foot_w, foot_h] = part.footprint_mm;
    let [body_w, body_h] = part.body_mm;
    let depth_mm = mounted.interior.depth_mm;
    PlacedElement {
        tag: requirement.tag.clone(),
        part: part.id.clone(),
        description: part.description.clone(),
        kind: part.kind,
        function: requirement.function.clone(),
        label: requirement.label.clone(),
        colour: part.colour.clone(),
        background: part.background.clone(),
        positions: part.positions,
        latching: part.latching,
        row,
        x_mm,
        y_mm,
        hole_mm: part.hole_mm,
        hole: part.hole.clone(),
        footprint: Rect::new(
            clean(x_mm - foot_w / 2.0),
            clean(y_mm - foot_h / 2.0),
            foot_w,
            foot_h,
        ),
        body: clean_block(Block::new(
            Point::new(
                x_mm - body_w / 2.0,
                y_mm - body_h / 2.0,
                depth_mm - need.depth_mm,
            ),
            Point::new(x_mm + body_w / 2.0, y_mm + body_h / 2.0, depth_mm),
        )),
        live: Vec::new(),
        contacts: contacts(need, part.points.as_slice()),
        power_w: part.power_w.unwrap_or(0.0),
        certificate: part.certificate.clone(),
        mass_kg: part.mass_kg,
        price: part.price,
    }
}

fn contacts(need: &ElementNeed<'_>, own_points: &[String]) -> Vec<PlacedContact> {
    let point = |name: &String| ContactPoint {
        name: name.clone(),
        potential: String::new(),
        wires: Vec::new(),
        working_voltage_v: 0.0,
        current_a: 0.0,
    };
    let mut contacts: Vec<PlacedContact> = need
        .blocks
        .iter()
        .zip(&need.contacts)
        .map(|(block, contact)| PlacedContact {
            part: Some(block.id.clone()),
            description: block.description.clone(),
            contact: Some(block.contact),
            points: contact.points.iter().map(point).collect(),
            circuits: block.circuits.clone(),
            rated_voltage_v: Some(block.rated_voltage_v),
            rated_current_a: Some(block.rated_current_a),
            utilisation: block.utilisation.clone(),
            resistance_mohm: block.resistance_mohm,
            clamp_range: block.clamp,
            spring_clamp: block.spring_clamp,
            torque_nm: block.torque_nm,
            strip_mm: block.strip_mm,
            certificate: block.certificate.clone(),
            mass_kg: block.mass_kg,
            price: block.price,
        })
        .collect();
    if !own_points.is_empty() {
        let part = need.part;
        contacts.push(PlacedContact {
            part: None,
            description: String::new(),
            contact: None,
            points: own_points.iter().map(point).collect(),
            circuits: vec![need.kind.unwrap_or(CircuitKind::ExE)],
            rated_voltage_v: part.rated_voltage_v,
            rated_current_a: part.rated_current_a,
            utilisation: Vec::new(),
            resistance_mohm: 0.0,
            clamp_range: part.clamp,
            spring_clamp: part.spring_clamp,
            torque_nm: part.torque_nm,
            strip_mm: part.strip_mm,
            certificate: part.certificate.clone(),
            mass_kg: 0.0,
            price: 0.0,
        });
    }
    contacts
}

/// Live parts of an element: its body less the inset, once for each potential on it.
pub(super) fn live_block(need: &ElementNeed<'_>, body: Block) -> Block {
    let inset_mm = need.part.live_inset_mm;
    clean_block(Block::new(
        Point::new(
            body.min.x_mm + inset_mm,
            body.min.y_mm + inset_mm,
            body.min.z_mm + inset_mm,
        ),
        Point::new(
            body.max.x_mm - inset_mm,
            body.max.y_mm - inset_mm,
            body.max.z_mm - inset_mm,
        ),
    ))
}
