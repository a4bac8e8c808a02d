//! What each sheet of Help now must say, by number of the rule: take a sentence out of `data/troubles.toml`, and its rule fails here.

use crate::harm::of;

/// A sheet, and what it says.
pub(crate) type Said<'a> = (&'a str, &'a [&'a str]);

/// Each phrase stands in its sheet.
pub(crate) fn said(all: &[Said]) {
    for (key, phrases) in all {
        let text = of(key);
        for phrase in *phrases {
            assert!(text.contains(phrase), "{key} no longer says: {phrase}\n{text}");
        }
    }
}

#[test]
fn rule_1_what_a_tap_may_bring_is_asked_and_covered() {
    said(&[
        (
            "tap",
            &[
                "Ask your supplier: what was added, how much total chlorine, chloramine or not, and until when.",
                "its label says how much total chlorine it covers",
                "Above 5 mg/L of chlorine: none.",
            ],
        ),
        ("heater-on", &["Fill up what evaporates, little by little, with conditioner in it."]),
    ]);
}

#[test]
fn rule_2_chlorine_is_thought_of_and_conditioner_stands_before_the_water() {
    said(&[
        (
            "gasping",
            &[
                "After a change of water: chlorine",
                "New water today? Chlorine may be the cause; it hurts gills",
                "Conditioner into every bucket, stirred, 5 minutes before it is poured; new water as warm as the tank.",
            ],
        ),
        (
            "overdose",
            &[
                "Conditioner in the new water, as warm as the tank, stirred, 5 minutes before it is poured; again tomorrow.",
            ],
        ),
        (
            "tap",
            &[
                "Did some go in already?",
                "chlorine hurts gills from about 0.02 mg/L on. Air full up. Watch them for an hour.",
            ],
        ),
        ("leak", &["Keep that water."]),
    ]);
}

#[test]
fn rules_3_and_15_the_filter_counts_after_the_start_test_and_animals_come_after_it() {
    said(&[
        (
            "ammonia",
            &[
                "“The filter takes it” counts only after the start test.",
                "Test the tap too: it may bring ammonia.",
                "chloramine in new water: which of them?",
                "Animals only after the start test was passed twice.",
                "Sponge rinsed in tank water, never under the tap.",
            ],
        ),
        ("lying", &["New animals one kind at a time, and after the start test was passed twice."]),
        (
            "power-cut",
            &[
                "its life suffocates, and what it holds may come out at once",
                "A filter that stood for hours: open it, pour off its water, rinse the sponge in a bucket of tank water, then start it.",
                "Test ammonia and nitrite tomorrow.",
            ],
        ),
    ]);
}

#[test]
fn rule_4_whoever_has_shrimps_or_copper_knows_that_it_is_meant() {
    said(&[("overdose", &["Shrimps, snails or a bottle with copper: harm starts"])]);
}

#[test]
fn rule_5_nothing_from_a_tap_that_smells_and_no_child_at_a_bucket() {
    said(&[
        (
            "tap",
            &[
                "Nothing from the tap goes into the tank, not even for topping up, until the supplier has answered.",
                "What the notice says for people holds; I speak of the tank alone.",
                "treated water, kept from children",
            ],
        ),
        (
            "leak",
            &[
                "Animals into a clean bucket of tank water. Air on, lid half on: a child can drown in it.",
                "At most 10 L to carry;",
            ],
        ),
    ]);
}

#[test]
fn rule_6_there_and_back_in_steps() {
    said(&[
        (
            "gasping",
            &[
                "Much warmer than usual: let a closed bottle of cold water float in it. Much colder: a blanket round the glass.",
            ],
        ),
        (
            "power-cut",
            &["A closed bottle of hand-warm water may float in it; warm by at most 1 °C (1.8 °F) in an hour"],
        ),
        ("heater-on", &["Let the room cool it; add cold only slowly."]),
        (
            "heater-dead",
            &["Cold kills slowly. A fast way back does more harm than the cold.", "Warm slowly. By at most"],
        ),
        (
            "overdose",
            &[
                "Twice a day’s dose: leave one dose out.",
                "the most for a day: then one usual change the same day. Ten times is another thing: go on here.",
            ],
        ),
        (
            "alkalinity",
            &[
                "The test shows 0.36 meq/L (1 German degree) or less;",
                "A fast way back is what harms: it frees ammonia.",
                "By small changes, or by bicarbonate of which Salts gives the grams.",
            ],
        ),
        ("nitrate", &["In steps: at most a tenth of the conductivity and 1 German degree of hardness a day."]),
    ]);
}

#[test]
fn rule_7_what_makes_ammonia_toxic_is_said_where_it_is_done() {
    said(&[
        (
            "gasping",
            &[
                "Then a quarter, and a test before the next: what is left gets more toxic.",
                "No better: test ammonia and nitrite, in the tank and in the tap. One of them shows: go on under “Ammonia or nitrite shows”",
                "one of them shows in a new tank, after a filter was washed under the tap, or after an animal died",
            ],
        ),
        ("lying", &["test ammonia and nitrite. Ammonia or nitrite shows: go on under that name."]),
        (
            "carbon-dioxide",
            &[
                "Leave the water as it is for the moment.",
                "where ammonia shows, that makes it more toxic. Test ammonia before any change with harder water.",
            ],
        ),
        ("overdose", &["Alkalinity salt, if it was that: pH is up, so test ammonia before and after each change."]),
        (
            "ammonia",
            &[
                "How bad it is hangs on pH and warmth: the table below says where harm starts. Nitrite hangs on chloride.",
                "No food. Leave the carbon dioxide as it is.",
                "for fish where its toxic share reaches 0.016 mg/L (as nitrogen), for snails and mussels where they bear less. Snails unknown: the smaller one counts.",
                "Below its figure: no big change, test again tomorrow. At it or over it: act now.",
                "Over the limit: plugs out",
                "Half, if your tap’s pH is not higher than the tank’s and it is as warm. Is it higher: a quarter, test, again after some hours, for harder water makes the rest more toxic.",
                "water of low minerals or clean rain, a tenth, thins both and raises no pH",
                "Test each day until both are gone. Nothing that raises pH meanwhile: no alkalinity salt, no new limestone.",
            ],
        ),
        (
            "alkalinity",
            &[
                "Test ammonia before anything: below pH 6.5 the filter slows and ammonium gathers, harmless only as long as pH stays low.",
                "It shows: no alkalinity salt and no hard water yet, for pH would rise and turn it toxic. Go on under “Ammonia or nitrite shows”.",
            ],
        ),
    ]);
}

#[test]
fn rule_8_never_a_big_change_in_an_old_acid_tank() {
    said(&[("alkalinity", &["Never a big change in an old acid tank."])]);
}

#[test]
fn rule_9_neither_medicine_nor_powder() {
    said(&[
        (
            "gasping",
            &[
                "it is that fish. Ask a vet who treats fish.",
                "which says whether to change again. Ask a vet who treats fish.",
            ],
        ),
        (
            "lying",
            &[
                "One alone: hurt, ill or old. I give no medicine: a vet who treats fish does.",
                "unless others attack it. Ask a vet who treats fish. I give no medicine.",
            ],
        ),
        ("overdose", &["Nothing is poured in against it: only water takes it out."]),
        ("nitrate", &["No other medicine or powder against it."]),
    ]);
}

#[test]
fn rule_10_nothing_more_of_a_bottle_that_was_too_much() {
    said(&[("overdose", &["Nothing more from that bottle."])]);
}

#[test]
fn what_speaks_for_a_cause_says_what_to_do_about_it() {
    let checks = [
        ("ammonia", "Test both again; go on under “Ammonia or nitrite shows”."),
        ("change", "Conditioner for the whole tank, as its label says; feel the water, read the thermometer."),
        ("warm", "Air full up, heater’s plug out, cool slowly."),
        ("carbon_dioxide", "Off now."),
        ("dose", "Go on under “I gave far too much from a bottle”."),
        ("food", "Take out what lies about, air on, test ammonia tomorrow."),
        ("sponge", "Test ammonia and nitrite: washed under the tap a filter loses its life."),
        ("newcomer", "Then ask a vet who treats fish."),
        ("dawn", "Air on; let some air run every night."),
    ];
    let causes = &knowledge::book().troubles.cause;
    assert_eq!(causes.len(), checks.len());
    for (cause, (key, check)) in causes.iter().zip(checks) {
        assert!(cause.check.contains(check), "{key} no longer says: {check}: {}", cause.check);
    }
}
