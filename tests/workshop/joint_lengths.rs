//! A joint around the vessel is as long as the vessel is round there.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::guided::complete;
use hearthplan::review::{Finding, Verdict, assess, remedies};
use hearthplan::sizing::shell_there::{self, widest_disc};
use std::f64::consts::PI;

const ID: &str = "leaks.joint_lengths";

fn found(design: &Design) -> Option<Finding> {
    assess(design).finding(ID).cloned()
}

fn with_length(place: usize, length: f64) -> Design {
    let mut design = example::as_improved();
    let path = format!("joints.{place}.length");
    (design.set(&path, Value::Number(length))).expect("a length");
    design
}

#[test]
fn a_joint_of_another_vessel_is_told_with_the_length_it_takes() {
    let improved = example::as_improved();
    assert_eq!(found(&improved).unwrap().verdict, Verdict::Good);
    let body = improved.body_wall.inside_diameter.value;
    let through: f64 = (improved.body_layers.iter())
        .map(|layer| layer.thickness.value)
        .sum();
    // The bottom lies in the bore of the vessel that is there.
    let bore = shell_there::bore(&improved).expect("the vessel is there");
    for (place, once) in [
        (0, PI * widest_disc(bore).value),
        // The gaskets lie around the shell and around the foot.
        (3, PI * (body + 2.0 * through + 0.020)),
        (5, PI * (body + 0.020)),
    ] {
        for (times, wanted) in [
            (1.09, Verdict::Good),
            (0.91, Verdict::Good),
            (1.11, Verdict::Watch),
            (0.6, Verdict::Watch),
        ] {
            let design = with_length(place, times * once);
            let finding = found(&design).unwrap();
            let told = finding.compared.text(System::Metric);
            assert_eq!(finding.verdict, wanted, "{place} {times}: {told}");
            if wanted == Verdict::Good {
                continue;
            }
            assert!(told.contains(design.joints[place].name.as_str()), "{told}");
            assert!(told.contains("once around it takes"), "{told}");
            // What is offered is once around, and not the mark.
            let offered = remedies(&design, ID);
            let lengths: Vec<f64> = (offered.iter())
                .filter_map(|remedy| match remedy.value {
                    Some(Value::Number(length)) => Some(length),
                    _ => None,
                })
                .collect();
            assert_eq!(lengths.len(), 1, "{place}");
            assert!((lengths[0] - once).abs() < 0.000_6, "{lengths:?} {once}");
        }
    }
}

#[test]
fn no_joint_is_asked_of_which_nothing_tells_where_it_lies() {
    let mut design = example::as_improved();
    design.joints[3].name = "Lid of the ash door".to_string();
    design.joints[0].name = "Weld at the bottom".to_string();
    design.joints[5].airtight = false;
    assert!(found(&design).is_none());
    // Two joints to the hopper: one of them may be a pipe.
    let mut two = example::as_improved();
    let pipe = two.joints[5].clone();
    two.joints.push(pipe);
    two.joints[5].length *= 0.2;
    assert_eq!(found(&two).unwrap().verdict, Verdict::Good);
}

#[test]
fn a_vessel_made_wider_after_the_first_questions_takes_longer_gaskets() {
    let mut design = complete(&example::to_start_from(), &[]);
    assert_eq!(found(&design).unwrap().verdict, Verdict::Good);
    (design.set("body_layers.1.thickness", Value::Number(0.16))).unwrap();
    let finding = found(&design).unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    assert!(finding.compared.text(System::Metric).contains("Vessel lid"));
}
