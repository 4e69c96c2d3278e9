//! Text with its measured box.

use super::geometry::{Area, Spot};
use super::widths::{BOLD, REGULAR};

/// Share of the type size that a capital letter is high (the font the widths come from).
const CAPITAL: f64 = 1409.0 / 2048.0;
/// Shares of the type size that capitals and digits reach under and over the line.
const CAPITAL_REACH: (f64, f64) = (0.02, 0.71);
/// The same for small letters without tails, and strokes.
const PLAIN_REACH: (f64, f64) = (0.03, 0.75);
/// The same for letters with tails, brackets and everything beyond plain letters (accents on capitals).
const FULL_REACH: (f64, f64) = (0.212, 0.905);

/// Where a text lies relative to its spot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// The text begins at the spot.
    Start,
    /// The spot is its middle.
    Middle,
    /// The text ends at the spot.
    End,
}

/// How a text looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextStyle {
    /// Height of a capital letter: ISO 3098 names 1.8, 2.5, 3.5, 5 and 7 mm.
    pub height_mm: f64,
    /// Whether it is bold.
    pub bold: bool,
    /// Whether it reads from below upwards, as drawings are read from the right.
    pub upwards: bool,
    /// Alignment along the line of text.
    pub align: Align,
}

impl TextStyle {
    /// Plain text of a capital height.
    pub fn plain(height_mm: f64) -> Self {
        Self {
            height_mm,
            bold: false,
            upwards: false,
            align: Align::Start,
        }
    }

    /// The same, bold.
    pub fn bold(self) -> Self {
        Self { bold: true, ..self }
    }

    /// The same, reading upwards.
    pub fn upwards(self) -> Self {
        Self {
            upwards: true,
            ..self
        }
    }

    /// The same with another alignment.
    pub fn align(self, align: Align) -> Self {
        Self { align, ..self }
    }

    /// Type size that gives the capital height.
    pub fn size_mm(&self) -> f64 {
        self.height_mm / CAPITAL
    }
}

/// A line of text on paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// Where it is: on the base line, at start, middle or end by its alignment.
    pub at: Spot,
    /// How it looks.
    pub style: TextStyle,
    /// What it says; one line.
    pub content: String,
}

impl Label {
    /// Length of the line.
    pub fn length_mm(&self) -> f64 {
        advance_mm(&self.content, &self.style)
    }

    /// The box that the text takes.
    pub fn area(&self) -> Area {
        let length = self.length_mm();
        let before = match self.style.align {
            Align::Start => 0.0,
            Align::Middle => length / 2.0,
            Align::End => length,
        };
        let reach = reach_of(&self.content);
        let (under, over) = (
            reach.0 * self.style.size_mm(),
            reach.1 * self.style.size_mm(),
        );
        let Spot { x_mm, y_mm } = self.at;
        if self.style.upwards {
            Area::new(
                x_mm - over,
                y_mm - before,
                x_mm + under,
                y_mm - before + length,
            )
        } else {
            Area::new(
                x_mm - before,
                y_mm - under,
                x_mm - before + length,
                y_mm + over,
            )
        }
    }

    /// A text whose capitals are centred on a spot, both ways.
    pub fn centred(at: Spot, style: TextStyle, content: impl Into<String>) -> Self {
        let half = style.height_mm / 2.0;
        let at = if style.upwards {
            at.moved(half, 0.0)
        } else {
            at.moved(0.0, -half)
        };
        Self {
            at,
            style: style.align(Align::Middle),
            content: content.into(),
        }
    }
}

/// How far a text reaches under and over its line, by the characters in it.
fn reach_of(content: &str) -> (f64, f64) {
    let is_capital = |character: char| {
        (character.is_ascii_digit() || character.is_ascii_uppercase() && !"QJ".contains(character))
            || " .:+-=".contains(character)
    };
    let is_plain = |character: char| {
        is_capital(character)
            || (character.is_ascii_lowercase() && !"gjpqy".contains(character))
            || "/–×%Ø°".contains(character)
    };
    if content.chars().all(is_capital) {
        CAPITAL_REACH
    } else if content.chars().all(is_plain) {
        PLAIN_REACH
    } else {
        FULL_REACH
    }
}

/// Length of a line of text.
pub fn advance_mm(content: &str, style: &TextStyle) -> f64 {
    let face = if style.bold { &BOLD } else { &REGULAR };
    let units: u32 = content
        .chars()
        .map(|character| u32::from(face.advance(character)))
        .sum();
    f64::from(units) / 2048.0 * style.size_mm()
}

/// Breaks a text into lines no longer than `width_mm`: at blanks where there are any, else inside a
/// word. An empty text is one empty line.
pub fn wrap(content: &str, style: &TextStyle, width_mm: f64) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in content.split_whitespace() {
        let last = lines.last_mut().expect("there is always a line");
        let joined = if last.is_empty() {
            word.to_string()
        } else {
            format!("{last} {word}")
        };
        if advance_mm(&joined, style) <= width_mm {
            *last = joined;
            continue;
        }
        if !last.is_empty() {
            lines.push(String::new());
        }
        for character in word.chars() {
            let last = lines.last_mut().expect("there is always a line");
            let mut longer = last.clone();
            longer.push(character);
            if advance_mm(&longer, style) > width_mm && !last.is_empty() {
                lines.push(character.to_string());
            } else {
                *last = longer;
            }
        }
    }
    lines
}

/// A text cut to a width, with dots where something is left out.
pub fn shortened(content: &str, style: &TextStyle, width_mm: f64) -> String {
    if advance_mm(content, style) <= width_mm {
        return content.to_string();
    }
    let mut kept: Vec<char> = content.chars().collect();
    while kept.pop().is_some() {
        let candidate: String = kept.iter().collect::<String>().trim_end().to_string() + "…";
        if advance_mm(&candidate, style) <= width_mm {
            return candidate;
        }
    }
    String::new()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_are_equally_wide() {
        let style = TextStyle::plain(2.5);
        for digit in '0'..='9' {
            assert_eq!(
                advance_mm(&digit.to_string(), &style),
                advance_mm("0", &style)
            );
        }
        // 1139 of 2048 parts of the type size, the figure width of this kind of font.
        assert!((advance_mm("0", &style) - 1139.0 / 2048.0 * style.size_mm()).abs() < 1e-12);
    }

    #[test]
    fn the_box_turns_with_the_text() {
        let label = Label {
            at: Spot::new(10.0, 20.0),
            style: TextStyle::plain(2.5),
            content: "R1".into(),
        };
        let turned = Label {
            style: label.style.upwards(),
            ..label.clone()
        };
        assert!((label.area().width_mm() - turned.area().height_mm()).abs() < 1e-12);
        assert_eq!(turned.area().bottom_mm, 20.0);
        assert!(turned.area().right_mm > 10.0);
    }

    #[test]
    fn wrapped_lines_keep_the_width_and_the_words() {
        let style = TextStyle::plain(1.8);
        let text = "cable gland, brass, nickel-plated, with an-exceedingly-long-word-that-must-be-broken inside";
        let lines = wrap(text, &style, 30.0);
        assert!(lines.len() > 2);
        for line in &lines {
            assert!(advance_mm(line, &style) <= 30.0, "{line}");
        }
        assert_eq!(lines.concat().replace(' ', ""), text.replace(' ', ""));
        assert_eq!(wrap("", &style, 30.0), [""]);
    }
}
