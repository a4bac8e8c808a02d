//! Pages of the web: their tables as grids, the rest as lines.

use scraper::{ElementRef, Html, Node};

use crate::grid::{Cell, Grid, Row};
use crate::titles;

/// Deepest nesting that is followed; no page of a water company comes near.
const DEEPEST: usize = 200;
/// Most columns that one cell may span.
const WIDEST: usize = 100;

/// The grids of a page, in its order.
pub(crate) fn grids(text: &str) -> Vec<Grid> {
    let page = Html::parse_document(text);
    let mut walk = Walk::default();
    walk.element(page.root_element(), 0);
    walk.end_line();
    walk.end_lines();
    walk.grids
}

/// Whether a text is a page of the web.
pub(crate) fn is_html(text: &str) -> bool {
    let head: String = text.trim_start().chars().take(2000).collect::<String>().to_lowercase();
    ["<!doctype html", "<html", "<table", "<body", "<div"].iter().any(|tag| head.contains(tag))
}

#[derive(Default)]
struct Walk {
    grids: Vec<Grid>,
    lines: Vec<Row>,
    line: Vec<String>,
    number: u32,
    /// The heading since the last table.
    heading: Option<String>,
}

impl Walk {
    fn element(&mut self, element: ElementRef<'_>, depth: usize) {
        if depth > DEEPEST {
            return;
        }
        match element.value().name() {
            "script" | "style" | "noscript" | "template" | "head" => return,
            "table" => {
                self.end_line();
                self.end_lines();
                let above = self.grids.last().and_then(|g| g.rows.last()).filter(|r| r.cells.len() == 1);
                let title = above.map(Row::joined).unwrap_or_default();
                let place = self.place();
                let grid = Grid { title, place, ..table(element, &mut self.number) };
                // A table within a table is for looks: what is inside is read by itself.
                match has_table(element) {
                    true => element.child_elements().for_each(|c| self.element(c, depth + 1)),
                    false => self.grids.push(grid),
                }
                return;
            }
            name if let Some(raised) = marked(self.line.last().map_or("", String::as_str), name, element) => {
                return self.text(&raised);
            }
            "br" | "p" | "li" | "div" | "h1" | "h2" | "h3" | "h4" | "h5" | "h6" | "tr" | "dt" | "section"
            | "article" => {
                self.end_line();
            }
            "td" | "th" | "dd" => self.line.push(String::new()),
            _ => {}
        }
        for child in element.children() {
            match child.value() {
                Node::Text(text) => self.text(text),
                Node::Element(_) => {
                    if let Some(child) = ElementRef::wrap(child) {
                        self.element(child, depth + 1);
                    }
                }
                _ => {}
            }
        }
        if matches!(element.value().name(), "p" | "li" | "div" | "dd" | "h1" | "h2" | "h3" | "h4" | "h5" | "h6" | "tr")
        {
            self.end_line();
        }
        if matches!(element.value().name(), "h1" | "h2" | "h3" | "h4" | "h5" | "h6") {
            self.heading = self.lines.last().map(Row::joined);
        }
    }

    /// What names the water of a table: a line between it and the table above, else the heading between them.
    fn place(&mut self) -> String {
        let heading = self.heading.take().unwrap_or_default();
        let lines = self.grids.last().map_or(&[][..], |g| &g.rows);
        let lines = lines.iter().skip(lines.len().saturating_sub(titles::LINES)).filter(|r| r.cells.len() == 1);
        let named = titles::above(lines.map(|r| r.text(0)));
        if named.is_empty() { heading } else { named }
    }

    fn text(&mut self, text: &str) {
        if self.line.is_empty() {
            self.line.push(String::new());
        }
        if let Some(last) = self.line.last_mut() {
            last.push_str(text);
        }
    }

    fn end_line(&mut self) {
        let cells: Vec<Cell> =
            self.line.drain(..).map(|t| Cell::new(squeeze(&t))).filter(|c| !c.text.is_empty()).collect();
        if !cells.is_empty() {
            self.number += 1;
            self.lines.push(Row { line: self.number, cells });
        }
    }

    fn end_lines(&mut self) {
        if !self.lines.is_empty() {
            self.grids.push(Grid { rows: std::mem::take(&mut self.lines), ..Grid::default() });
        }
    }
}

fn has_table(element: ElementRef<'_>) -> bool {
    element.descendants().skip(1).any(|n| n.value().as_element().is_some_and(|e| e.name() == "table"))
}

fn squeeze(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A table with its cells spread over the columns and rows that they span.
fn table(element: ElementRef<'_>, number: &mut u32) -> Grid {
    let mut rows: Vec<Row> = Vec::new();
    let mut open: Vec<(usize, usize, String)> = Vec::new();
    let tags = element.descendants().filter_map(ElementRef::wrap).filter(|e| e.value().name() == "tr");
    for tr in tags.take(super::MOST_ROWS) {
        let mut cells: Vec<Cell> = Vec::new();
        let mut held = std::mem::take(&mut open);
        for td in tr.child_elements().filter(|e| matches!(e.value().name(), "td" | "th")) {
            fill(&mut cells, &mut held, &mut open);
            let span =
                |name: &str| td.value().attr(name).and_then(|v| v.parse().ok()).unwrap_or(1_usize).clamp(1, WIDEST);
            let (wide, tall) = (span("colspan"), span("rowspan"));
            let text = squeeze(&shown(td));
            for i in 0..wide {
                if tall > 1 {
                    open.push((cells.len(), tall - 1, text.clone()));
                }
                cells.push(Cell { spread: i > 0, ..Cell::new(&text) });
            }
        }
        fill(&mut cells, &mut held, &mut open);
        *number += 1;
        if cells.iter().any(|c| !c.text.is_empty()) {
            rows.push(Row { line: *number, cells });
        }
    }
    Grid { rows, ..Grid::default() }
}

/// Cells that reach down from the rows above.
fn fill(cells: &mut Vec<Cell>, held: &mut Vec<(usize, usize, String)>, open: &mut Vec<(usize, usize, String)>) {
    while let Some(at) = held.iter().position(|(column, ..)| *column == cells.len()) {
        let (column, left, text) = held.swap_remove(at);
        cells.push(Cell { spread: true, ..Cell::new(&text) });
        if left > 1 {
            open.push((column, left - 1, text));
        }
    }
}

/// The text of a cell.
fn shown(cell: ElementRef<'_>) -> String {
    let mut out = String::new();
    let mut stack: Vec<_> = cell.children().rev().collect();
    while let Some(node) = stack.pop() {
        match node.value() {
            Node::Text(text) => out.push_str(text),
            Node::Element(e) => match e.name() {
                name if let Some(raised) = ElementRef::wrap(node).and_then(|e| marked(&out, name, e)) => {
                    out.push_str(&raised);
                }
                "script" | "style" => {}
                "br" | "p" | "div" | "li" => {
                    out.push(' ');
                    stack.extend(node.children().rev());
                }
                _ => stack.extend(node.children().rev()),
            },
            _ => {}
        }
    }
    out
}

/// What an element says that is raised, or that stands as a mark right behind a number: "40<a>1</a>" is not 401.
fn marked(before: &str, name: &str, element: ElementRef<'_>) -> Option<String> {
    if name == "sup" {
        return Some(raised(before, &element.text().collect::<String>()));
    }
    let inline = matches!(name, "a" | "small" | "span" | "font" | "em" | "i" | "b" | "strong" | "u" | "mark" | "abbr");
    if !inline || !before.ends_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let inside: String = element.text().take(4).collect();
    let bare = inside.trim().trim_matches(['(', ')', '[', ']']);
    let short = (1..=2).contains(&bare.len()) && bare.bytes().all(|b| b.is_ascii_digit()) && !inside.starts_with(' ');
    // Digits of a number may be in an element of their own: then two numbers are asked about.
    let raises = matches!(name, "a" | "small")
        || ["class", "style"].iter().filter_map(|a| element.attr(a)).any(|v| RAISES.iter().any(|r| v.contains(r)));
    short.then(|| if raises { raised(before, &inside) } else { format!(" {bare}") })
}

/// What classes and styles of a raised mark are called.
const RAISES: [&str; 4] = ["sup", "foot", "note", "noot"];

/// What is raised: a charge, a power, or the mark of a footnote, which then stands apart from what it marks.
fn raised(before: &str, inside: &str) -> String {
    let inside = inside.trim();
    let raise = |text: &str| {
        text.chars().map(|c| RAISED.iter().find(|(plain, _)| *plain == c).map_or(c, |(_, up)| *up)).collect()
    };
    let is_power = before.ends_with('m') && inside.chars().all(|c| c.is_ascii_digit());
    if is_power || inside.contains(['+', '-', '\u{2212}', '\u{207b}']) {
        return raise(inside);
    }
    let bare = inside.trim_matches(['(', ')', '[', ']']);
    let short = (1..=2).contains(&bare.chars().count()) && bare.chars().all(|c| c.is_ascii_alphanumeric());
    match (bare.chars().all(|c| c == '*' || c == '†' || c == '‡') && !bare.is_empty(), short) {
        (true, _) => format!(" {bare} "),
        (_, true) if before.trim().is_empty() => format!("{bare}) "),
        (_, true) => format!(" {bare}) "),
        _ => String::new(),
    }
}

/// Signs and what stands for them raised.
const RAISED: [(char, char); 13] = [
    ('0', '⁰'),
    ('1', '¹'),
    ('2', '²'),
    ('3', '³'),
    ('4', '⁴'),
    ('5', '⁵'),
    ('6', '⁶'),
    ('7', '⁷'),
    ('8', '⁸'),
    ('9', '⁹'),
    ('+', '⁺'),
    ('-', '⁻'),
    ('\u{2212}', '⁻'),
];
