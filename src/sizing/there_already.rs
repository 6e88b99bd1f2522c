//! Which pieces of the design are there already, so that they are neither bought, cut, welded nor paid for any more?

use super::machine::{Closure, Piece};
use super::shell_there::{is_of_it, is_own_bottom};
use super::zone::Zone;
use crate::design::Design;
use crate::design::inputs::Layer;

/// Why nothing is cut for a piece that is there already; none for one that is still to be made. It is of the vessel that was
/// bought and measured, of a vessel that is built and lined, which has both its walls, its ends and all that closes them, or of
/// a hearth that is built: fire tube, cones and nozzles. Its grate hangs free, and a hopper stands on top.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::{machine::Piece, there_already::there_already};
/// let mut design = example::as_improved();
/// let blanket = Piece::Layer { list: "body_layers", index: 0 };
/// let tube = Piece::OfSection { section: "hearth", label: "Fire tube" };
/// assert!([blanket, tube].iter().all(|piece| there_already(&design, *piece).is_none()));
/// (design.real_vessel.lined, design.hearth.built) = (true, true);
/// assert!([blanket, tube].iter().all(|piece| there_already(&design, *piece).is_some()));
/// ```
pub fn there_already(design: &Design, piece: Piece) -> Option<&'static str> {
    match piece {
        _ if is_own_bottom(design, piece) => Some(
            "it is the bottom of the vessel that was bought and measured, which is there already: nothing to cut",
        ),
        _ if is_of_it(design, piece) => Some(
            "it is the vessel that was bought and measured, which is there already: nothing to cut and to roll",
        ),
        Piece::Layer { list, .. } if design.real_vessel.lined && is_of_a_zone(list) => Some(LINED),
        Piece::Closure(
            Closure::LinerPlate
            | Closure::LidNeck
            | Closure::LidRim
            | Closure::ShellFlange(_)
            | Closure::NeckFlange(_),
        ) if design.real_vessel.lined => Some(LINED),
        Piece::OfSection {
            section: "hearth", ..
        }
        | Piece::Closure(Closure::TubeRing)
            if design.hearth.built =>
        {
            Some("it is of the hearth that is built, which is there already: nothing to cut")
        }
        _ => None,
    }
}

/// Why nothing is cut for what is in a vessel that is lined.
const LINED: &str =
    "it is of the vessel that is built and lined, which is there already: nothing to cut";

fn is_of_a_zone(list: &str) -> bool {
    Zone::ALL.iter().any(|zone| zone.layer_list() == list)
}

/// Whether a piece is there already.
pub fn is_there_already(design: &Design, piece: Piece) -> bool {
    there_already(design, piece).is_some()
}

/// The layers of a zone that are still to be laid, from the hot side outwards.
///
/// ```
/// use hearthplan::{design::example, sizing::{there_already::still_to_lay, zone::Zone}};
/// let mut design = example::as_improved();
/// assert!(still_to_lay(&design, Zone::Body).count() > 0);
/// design.real_vessel.lined = true;
/// assert_eq!(still_to_lay(&design, Zone::Body).count(), 0);
/// ```
pub fn still_to_lay(design: &Design, zone: Zone) -> impl Iterator<Item = &Layer> {
    let list = zone.layer_list();
    let layers = zone.layers(design).iter().enumerate();
    layers
        .filter(move |(index, _)| {
            let index = *index;
            !is_there_already(design, Piece::Layer { list, index })
        })
        .map(|(_, layer)| layer)
}
