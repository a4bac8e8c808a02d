//! What each sheet of Help now must say of breath, rooms, heaters, power and people, by number of the rule (12 to 24): as `harm_sheets`.

use crate::harm_sheets::said;

#[test]
fn rule_12_where_carbon_dioxide_harms_and_that_the_upper_end_counts() {
    said(&[(
        "carbon-dioxide",
        &[
            "Above 30 mg/L fish are in stress, above 50 to 60 in danger.",
            "a reading of 22 may be 30, and humic acids or phosphate spoil it: the breathing of the fish counts first",
            "Aim at 15 mg/L.",
        ],
    )]);
}

#[test]
fn rule_13_breath_before_all_else() {
    said(&[
        (
            "gasping",
            &[
                "Carbon dioxide is on, or was just set higher: it is the cause until shown otherwise.",
                "Carbon dioxide off an hour before the light goes out, and set by the breathing of the fish as well as by a test.",
                "oxygen is short. Air is the remedy.",
                "If you give any: close the valve of the cylinder.",
                "Lid off, air pump full up. No pump? Dip up water with a clean jug and let it fall back from a hand’s height, again and again.",
                "No food. Wait a quarter of an hour.",
                "leave it be. The air stays on all night.",
            ],
        ),
        (
            "lying",
            &[
                "Others gasp too? Then it is the water: take “Fish at the surface” instead.",
                "Out for the minutes while hands are in the water, and then back: the filter and the air must not stand for long.",
                "never pinch it. Air pump full up.",
            ],
        ),
        (
            "power-cut",
            &[
                "Breath comes before warmth.",
                "Close the valve of the cylinder: without power the air stands still, and a valve may not close by itself.",
                "Move the water. A battery air pump, or a clean jug: dip up and let fall back from a hand’s height for five minutes in every half hour, first of all at night. Lid off.",
                "No food. They bear days without; food eats oxygen and becomes ammonia.",
                "A blanket round the glass, not over the top: air must get in.",
            ],
        ),
        (
            "carbon-dioxide",
            &[
                "Raise it over days, never before you leave and never before heat; off at night.",
                "Carbon dioxide off. Close the valve of the cylinder.",
                "No pump? A jug, from a hand’s height, again and again.",
                "They breathe as usual again? The carbon dioxide stays off today. Tomorrow begin with half of it, and go up over days.",
            ],
        ),
        ("overdose", &["Air on, carbon dioxide off."]),
        ("ammonia", &["But they breathe fast? Then it goes off and the air on, full up: breath goes first."]),
        (
            "heater-on",
            &[
                "Warm water holds less oxygen, and fish need more of it: air first, cooling second.",
                "Carbon dioxide is never raised before heat.",
                "Carbon dioxide off, air on. Lid off, air pump full up, the outlet of the filter so that the surface breaks.",
            ],
        ),
        ("heater-dead", &["A blanket round the glass, the lid on but for a gap."]),
        ("alkalinity", &["Less food, carbon dioxide off until it stands."]),
    ]);
}

#[test]
fn rule_14_nobody_stays_and_nobody_goes_back() {
    let fumes = "You first. Hissing near a cylinder, a headache, short breath: out of the room, door open, call for help. Nobody goes back for the valve.";
    for key in ["gasping", "cylinder", "carbon-dioxide"] {
        said(&[(key, &[fumes])]);
    }
    said(&[
        ("gasping", &["A bottle of yeast or of acid: lift its tube out of the water, and never pinch it."]),
        ("power-cut", &["A bottle of yeast or acid: lift its tube out of the water, never pinch it."]),
        (
            "carbon-dioxide",
            &[
                "A bottle of yeast or acid: lift its tube out of the water, never pinch it.",
                "Cylinder by weight, not by bubbles.",
            ],
        ),
        (
            "person",
            &[
                "Short breath or headache near carbon dioxide: out of the room. Door open. Nobody goes back for the valve.",
            ],
        ),
        (
            "cylinder",
            &[
                "Carbon dioxide is heavier than air, you can’t smell it, and at a few per cent it makes you helpless.",
                "Not before the room was aired for a long time. Joints are tested with soap water, never by ear close up.",
                "Upright and fixed, in date, with the regulator made for it, closed when you go away; a carbon dioxide alarm at sitting height.",
                "else it does not stand in this room",
                "Acid and bicarbonate only in a generator sold for it, with a relief valve.",
                "Door and windows open as you go.",
                "Low rooms and cellars fill first.",
                "Somebody is dizzy or has fainted? Emergency number. Nobody goes in after them without air of their own.",
                "A bottle of yeast or acid swells: Don’t pinch its tube, don’t carry it about, don’t open it near your face. Leave the room and let it vent; call the fire brigade if you can’t tell.",
                "Back only when it is silent and was aired for an hour. Then close the valve. At the next headache: out again. A dealer looks at cylinder and regulator before they are used again.",
            ],
        ),
    ]);
}

#[test]
fn rule_16_nitrate_has_its_marks_and_a_rich_tap_takes_nothing_out() {
    said(&[(
        "nitrate",
        &[
            "grown fish bear 20 to 50 mg/L in common practice. For shrimps, snails and young the strictest guideline is 13 mg/L.",
            "A tap that brings as much can’t take it out.",
            "Tap as high as the tank: changing takes nothing out.",
        ],
    )]);
}

#[test]
fn rule_18_heaters() {
    let mark = "Until then take water only down to the mark.";
    for key in ["gasping", "lying", "overdose", "ammonia", "alkalinity"] {
        said(&[(key, &[mark])]);
    }
    said(&[
        ("power-cut", &["So that nothing runs dry or starts by itself when the power is back."]),
        (
            "heater-on",
            &[
                "near 36 °C (96.8 °F) fish of warm tanks die",
                "it is stuck. Throw it away; it is not mended.",
                "one alone can’t cook the tank. Look up what yours would reach in your hottest room.",
            ],
        ),
        (
            "heater-dead",
            &[
                "Two heaters with their own thermostats: when one dies the other carries on.",
                "Plug in when the water is over its mark, 15 minutes after it was put in.",
            ],
        ),
    ]);
}

#[test]
fn rule_19_no_hot_water_into_the_tank() {
    said(&[("heater-dead", &["No hot water into the tank: it scalds fish and you."])]);
}

#[test]
fn rule_20_power_before_hands() {
    let wet = "Touch nothing wet if your hand tingles, glass is broken or water is on the floor. Power off at the fuse box, but only if you reach it on dry ground.";
    for key in ["gasping", "leak", "lying", "power-cut", "heater-on", "heater-dead"] {
        said(&[(key, &[wet])]);
    }
    let shocked = "Someone is shocked: don’t touch them before the power is off. Then call the emergency number.";
    let outside = "But not an air pump that stands outside: it stays on.";
    said(&[
        (
            "gasping",
            &[
                shocked,
                "Heater, lamp, filter: all that is in the water or over it, for the minutes while hands are in it.",
                outside,
            ],
        ),
        (
            "leak",
            &[
                shocked,
                "Stay out of the water on the floor until the power is off.",
                "Sockets above the floor and beside the tank, every cable in a loop below its socket.",
                "Only then hands in. A battery air pump or one that stands dry may stay on.",
            ],
        ),
        ("lying", &["Plugs out, with dry hands, before a hand goes in. Heater, lamp, filter.", outside]),
        ("heater-on", &["Lamp and filter too while your hands are in the water.", outside]),
        (
            "heater-dead",
            &[
                "A heater that broke may have put the water under voltage: nobody’s hand goes in before its plug is out.",
                "Glass cracked or water inside: it stays out of the tank for ever.",
            ],
        ),
        (
            "person",
            &[
                "A person comes before every fish.",
                "Emergency number first if somebody does not breathe, is dazed or burnt.",
                "Residual-current device of 30 mA or less, fitted by a licensed electrician (in North America about 5 mA), its button pressed monthly;",
                "Shock: power off first, only then touch. Plug with dry hands, or the fuse box on dry ground. Does not breathe: call, then press the chest. Call the emergency number even if it seems over: the heart may follow hours later.",
            ],
        ),
    ]);
}

#[test]
fn rule_21_fumes_and_the_air_that_the_pump_takes() {
    said(&[
        (
            "gasping",
            &[
                "Spray, paint or smoke in the room? Window open",
                "The air pump’s intake where nobody sprays, paints or smokes.",
                "Power cut? No generator, grill or stove indoors: their fumes kill people.",
            ],
        ),
        ("lying", &["a spray in the room"]),
        ("power-cut", &["Power cut? No generator, grill or stove indoors: their fumes kill people."]),
    ]);
}

#[test]
fn rule_22_swallowed_or_in_the_eye() {
    for key in ["gasping", "cylinder", "lying", "overdose"] {
        said(&[(key, &["Swallowed something, or in the eye? Call the poison centre now."])]);
    }
    said(&[
        (
            "person",
            &[
                "For the doctor: what it was, how much, when. The label goes with you.",
                "Salts dry, closed, labelled, away from children, never in a drinks bottle.",
                "Do as they say. Nothing is given to make anybody vomit.",
                "In the eye: water, at once, for a quarter of an hour. Clean lukewarm water, lids held open, contact lens out. Poison centre while you rinse.",
            ],
        ),
        (
            "overdose",
            &[
                "Label on every bottle, a syringe instead of pouring, half the usual strength where children or guests give it.",
                "Keep its label at hand. Swallowed of it, or in the eye: poison centre before all else.",
            ],
        ),
    ]);
}

#[test]
fn rules_23_and_24_cuts_siphons_back_flow_and_load() {
    said(&[
        (
            "person",
            &[
                "A cut in tank water. Rinse under the tap, wash with soap. A lump that does not heal in weeks: tell the doctor about the tank.",
            ],
        ),
        (
            "leak",
            &[
                "Return pipes with a hole under the waterline. An old seam or a nick: retire the tank.",
                "A seam that weeps gets worse.",
            ],
        ),
    ]);
}
