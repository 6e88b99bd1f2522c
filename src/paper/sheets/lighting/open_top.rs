//! What is another matter where air comes in at the open top of a straight fire tube. Common practice, no source.

/// What is looked at before each fire.
pub(super) const BEFORE: [&str; 2] = [
    "Ash taken out, grate moves; char fills the fire tube to near its top",
    "Doors and covers closed on clean seals; the top stands open, for air comes in there, and its lid is at hand for stopping",
];
/// The fuel, before the fire.
pub(super) const FUEL: &str = "{} of at most {} water and about {} across, as reckoned; at hand, to be filled in once the char burns";
/// How it is lit.
pub(super) const LIGHT: &str = "First let the blower draw air through the whole machine for a few minutes. Only then light the char from above, with a flame on a long handle: stand beside the open top, and never lean over it. Fill in the wood once the char burns.";
/// How it is stopped.
pub(super) const STOP: &str = "To stop: {}, then put the lid tightly on the open top, standing to the side, and shut gas outlet and every other opening tightly. With the top open the fire goes on. The char glows for hours and gives off gas, carbon monoxide in it: leave it shut, outdoors.";
