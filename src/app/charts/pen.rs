//! The strokes and texts a chart is made of, on a canvas as fine as the screen.

use super::chart::Dash;
use super::paint::{Paint, context};
use super::place::{Area, Spot};
use js_sys::Array;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, DrawingAreaErrorKind, IntoDrawingArea};
use plotters::element::{Circle, Rectangle};
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{Color, IntoFont, RGBAColor, RGBColor, ShapeStyle, TextStyle};
use plotters_canvas::CanvasBackend;
use std::cell::RefCell;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// Why a drawing was not finished.
pub type PenError = DrawingAreaErrorKind<<CanvasBackend as DrawingBackend>::ErrorType>;

/// Lines are placed to this part of a fine pixel: whole pixels would make a gentle slope a staircase.
pub const PARTS: f64 = 8.0;

/// A canvas made ready. All lengths are in its own fine pixels.
pub struct Pen {
    root: DrawingArea<CanvasBackend, Shift>,
    /// The same canvas, for what an area would round to whole pixels.
    backend: RefCell<CanvasBackend>,
    context: CanvasRenderingContext2d,
    /// Colours and type.
    pub paint: Paint,
    /// Fine pixels in one pixel of the page.
    pub fine: f64,
    /// Width of the canvas.
    pub width: f64,
    /// Height of the canvas.
    pub height: f64,
}

/// Where a text stands with respect to its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// To the right of it.
    Start,
    /// Across it.
    Middle,
    /// To the left of it.
    End,
}

impl Pen {
    /// Makes a canvas as fine as the screen and wipes it; none while it is not shown.
    pub fn on(canvas: &HtmlCanvasElement, fine: f64) -> Option<Self> {
        let (wide, high) = (canvas.client_width(), canvas.client_height());
        if wide < 40 || high < 40 {
            return None;
        }
        let width = (f64::from(wide) * fine).round();
        let height = (f64::from(high) * fine).round();
        canvas.set_width(width as u32);
        canvas.set_height(height as u32);
        Some(Self {
            paint: Paint::around(canvas)?,
            context: context(canvas)?,
            backend: RefCell::new(CanvasBackend::with_canvas_object(canvas.clone())?),
            root: CanvasBackend::with_canvas_object(canvas.clone())?.into_drawing_area(),
            fine,
            width,
            height,
        })
    }

    /// Height of the type.
    pub fn type_size(&self) -> f64 {
        self.paint.size * self.fine
    }

    /// Width of a text.
    pub fn width_of(&self, text: &str) -> f64 {
        self.context
            .set_font(&format!("{}px {}", self.type_size(), self.paint.family));
        self.context
            .measure_text(text)
            .map_or(0.0, |measured| measured.width())
    }

    /// A text level with `spot`, with a rim of paper so that lines behind it do not disturb.
    pub fn text(
        &self,
        text: &str,
        spot: Spot,
        anchor: Anchor,
        colour: RGBColor,
    ) -> Result<(), PenError> {
        let width = self.width_of(text);
        let left = match anchor {
            Anchor::Start => spot.0,
            Anchor::Middle => spot.0 - 0.5 * width,
            Anchor::End => spot.0 - width,
        };
        let paper = self.paint.paper();
        self.context
            .set_stroke_style_str(&format!("rgb({},{},{})", paper.0, paper.1, paper.2));
        self.context.set_line_width(4.0 * self.fine);
        self.context.set_line_join("round");
        self.set_dash(Dash::Solid, 1.0);
        self.context.set_text_baseline("middle");
        self.context.set_text_align("start");
        // Without its rim the text is still there.
        let _ = self.context.stroke_text(text, left.round(), spot.1.round());
        let style: TextStyle = (self.paint.family.as_str(), self.type_size())
            .into_font()
            .color(&colour)
            .pos(Pos::new(HPos::Left, VPos::Center));
        self.root.draw_text(text, &style, pixel((left, spot.1)))
    }

    /// A line through these spots.
    pub fn line(
        &self,
        spots: &[Spot],
        colour: RGBColor,
        width: f64,
        dash: Dash,
    ) -> Result<(), PenError> {
        let style = ShapeStyle {
            color: colour.to_rgba(),
            filled: false,
            stroke_width: (self.whole(width) * PARTS) as u32,
        };
        let parts = spots
            .iter()
            .map(|spot| pixel((spot.0 * PARTS, spot.1 * PARTS)));
        self.context.save();
        self.set_dash(dash, PARTS);
        self.context.set_line_join("round");
        let mut backend = self.backend.borrow_mut();
        let drawn = match self.context.scale(1.0 / PARTS, 1.0 / PARTS) {
            Ok(()) => backend.draw_path(parts, &style),
            // Undrawn lines are better than lines in the wrong place.
            Err(_) => Ok(()),
        };
        self.context.restore();
        drawn.map_err(PenError::BackendError)
    }

    /// A level or upright hairline, on the pixels of the screen so that it is sharp.
    pub fn rule(&self, from: Spot, to: Spot, colour: RGBColor, dash: Dash) -> Result<(), PenError> {
        let middle = 0.5 * (self.whole(1.0) % 2.0);
        let sharp = |spot: Spot| (spot.0.round() + middle, spot.1.round() + middle);
        self.line(&[sharp(from), sharp(to)], colour, 1.0, dash)
    }

    /// A width of the page in whole fine pixels, at least one.
    fn whole(&self, width: f64) -> f64 {
        (width * self.fine).round().max(1.0)
    }

    /// A tinted area.
    pub fn tint(&self, area: &Area, colour: RGBAColor) -> Result<(), PenError> {
        let corners = [
            pixel((area.left, area.top)),
            pixel((area.right, area.bottom)),
        ];
        self.root.draw(&Rectangle::new(corners, colour.filled()))
    }

    /// A filled dot with a rim of paper.
    pub fn dot(&self, spot: Spot, radius: f64, colour: RGBColor) -> Result<(), PenError> {
        let rim = ((radius + 2.0) * self.fine).round() as u32;
        let radius = (radius * self.fine).round() as u32;
        let paper = self.paint.paper().filled();
        self.root.draw(&Circle::new(pixel(spot), rim, paper))?;
        self.root
            .draw(&Circle::new(pixel(spot), radius, colour.filled()))
    }

    fn set_dash(&self, dash: Dash, parts: f64) {
        let lengths: &[f64] = match dash {
            Dash::Solid => &[],
            Dash::Long => &[10.0, 5.0],
            Dash::Short => &[4.0, 4.0],
            Dash::LongShort => &[10.0, 4.0, 2.0, 4.0],
            Dash::Dots => &[2.0, 3.0],
        };
        let lengths: Array = lengths
            .iter()
            .map(|length| wasm_bindgen::JsValue::from(length * self.fine * parts))
            .collect();
        // A line that stays unbroken still says what it says.
        let _ = self.context.set_line_dash(&lengths);
    }
}

fn pixel(spot: Spot) -> (i32, i32) {
    (spot.0.round() as i32, spot.1.round() as i32)
}
