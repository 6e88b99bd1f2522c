//! Hearthplan: a design calculator for small downdraft wood-gas generators.
//!
//! The map of the house. Imports point one way, and everybody may read `design`:
//!
//! ```text
//! app ──> paper ──> review ──> sizing ──> physics
//!   └───────┴─────────┴──────────┴──> design
//! ```
//!
//! - [`design`]: what a person enters: plain data, ranges, presets, link and file formats.
//! - [`physics`]: what is true anywhere: air, gas, water and steel, convection, friction, conduction.
//! - [`sizing`]: what this trade computes: one file per question, each answerable on its own.
//! - [`review`]: puts a design through every question and gives verdicts with remedies.
//! - [`paper`]: sheets and files for the workshop: tables, true-size templates as SVG and DXF, print pages.
//! - `app`: what a person sees; only built for the browser.
//!
//! The library is pure: no browser, no clock, no unseeded randomness, no panic on any input.

// The site is compiled for size; what is reckoned thousands of times per review is not.
#![cfg_attr(hearthplan_site, feature(optimize_attribute))]

pub mod design;
pub mod paper;
pub mod physics;
pub mod review;
pub mod sizing;

#[cfg(all(target_arch = "wasm32", target_os = "unknown"))]
pub mod app;
