//! Colours and type of the page, as the canvas needs them.

use super::chart::{Ink, Tone};
use leptos::prelude::window;
use plotters::style::RGBColor;
use wasm_bindgen::JsCast as _;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// What a canvas is drawn with; read anew for each drawing, so that a change of theme or text size
/// is followed.
#[derive(Debug, Clone)]
pub struct Paint {
    paper: RGBColor,
    ink: RGBColor,
    soft: RGBColor,
    grid: RGBColor,
    heat: RGBColor,
    gas: RGBColor,
    watch: RGBColor,
    stop: RGBColor,
    /// Type family.
    pub family: String,
    /// Height of the type in pixels of the page.
    pub size: f64,
}

/// The drawing context of a canvas.
pub fn context(canvas: &HtmlCanvasElement) -> Option<CanvasRenderingContext2d> {
    canvas.get_context("2d").ok()??.dyn_into().ok()
}

impl Paint {
    /// The paint of the page around this canvas.
    pub fn around(canvas: &HtmlCanvasElement) -> Option<Self> {
        let style = window().get_computed_style(canvas).ok()??;
        let context = context(canvas)?;
        let property = |name: &str| style.get_property_value(name).unwrap_or_default();
        let colour = |name: &str| {
            // The canvas turns any way of writing a colour into #rrggbb; what it cannot read leaves the ink as it was.
            context.set_fill_style_str("#808080");
            context.set_fill_style_str(property(name).trim());
            hexadecimal(&context.fill_style().as_string().unwrap_or_default())
        };
        Some(Self {
            paper: colour("--paper"),
            ink: colour("--ink"),
            soft: colour("--ink-soft"),
            grid: colour("--line-soft"),
            heat: colour("--heat"),
            gas: colour("--gas"),
            watch: colour("--watch"),
            stop: colour("--stop"),
            family: property("font-family"),
            size: property("font-size")
                .trim_end_matches("px")
                .parse()
                .unwrap_or(13.0),
        })
    }

    /// The ground.
    pub fn paper(&self) -> RGBColor {
        self.paper
    }

    /// Frames and texts.
    pub fn plain(&self) -> RGBColor {
        self.ink
    }

    /// Numbers along the axes.
    pub fn soft(&self) -> RGBColor {
        self.soft
    }

    /// Grid lines.
    pub fn grid(&self) -> RGBColor {
        self.grid
    }

    /// A line of the chart.
    pub fn ink(&self, ink: Ink) -> RGBColor {
        match ink {
            Ink::Plain => self.ink,
            Ink::Heat => self.heat,
            Ink::Gas => self.gas,
        }
    }

    /// A band.
    pub fn tone(&self, tone: Tone) -> RGBColor {
        match tone {
            Tone::Watch => self.watch,
            Tone::Stop => self.stop,
        }
    }
}

fn hexadecimal(text: &str) -> RGBColor {
    let part = |from: usize| {
        text.get(from..from + 2)
            .and_then(|digits| u8::from_str_radix(digits, 16).ok())
            .unwrap_or(0x80)
    };
    RGBColor(part(1), part(3), part(5))
}
