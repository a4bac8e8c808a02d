//! What is far from usual, in plain text: asked before anything else is said.

use setup::Tank;

use super::text::Text;

/// The question "Really?" with each number that is far from usual.
pub fn really(t: &mut Text, tank: &Tank) {
    if tank.unusual.is_empty() {
        return;
    }
    t.head("Really?");
    for (field, sentence) in &tank.unusual {
        t.point(&format!("{sentence} (`{field}`)"));
    }
}
