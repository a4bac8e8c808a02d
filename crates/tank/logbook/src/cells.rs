//! A table as text, cut into cells that know where they stand (RFC 4180; commas, semicolons or tabs).

use quantity::{Fault, Place};

/// A longer line is not shown in a fault.
const EXCERPT: usize = 160;

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Cell {
    /// Its text; without space round it, unless it stands in quotes.
    pub text: String,
    /// Line and column of its first character, counted from 1.
    pub line: usize,
    pub column: usize,
    /// Characters that it takes, on its first line.
    pub width: usize,
}

/// A text of cells.
pub(crate) struct Table<'a> {
    pub file: &'a str,
    lines: Vec<&'a str>,
    /// Rows that are not empty.
    pub rows: Vec<Vec<Cell>>,
}

impl<'a> Table<'a> {
    /// Cuts a text.
    ///
    /// # Errors
    /// A quotation mark that is never closed.
    pub fn cut(file: &'a str, text: &'a str) -> Result<Table<'a>, Fault> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let lines = lines(text);
        let mut table = Table { file, lines, rows: Vec::new() };
        let mut cutter = Cutter::new(text, separator(text));
        while let Some(row) = cutter.row() {
            if row.iter().any(|cell| !cell.text.is_empty()) {
                table.rows.push(row);
            }
        }
        match cutter.open {
            Some((line, column)) => Err(Fault::new("a quotation mark is opened here and never closed")
                .at(table.place(line, Some((column, 1))))
                .hint("close it, or write two of them where one is meant")),
            None => Ok(table),
        }
    }

    /// A place in the text: line, and column with width.
    pub fn place(&self, line: usize, at: Option<(usize, usize)>) -> Place {
        let excerpt = self.lines.get(line.wrapping_sub(1)).filter(|text| text.chars().count() <= EXCERPT);
        Place {
            file: Some(self.file.to_owned()),
            line: Some(line),
            column: at.map(|(column, _)| column),
            field: None,
            excerpt: excerpt.map(|text| (*text).to_owned()),
            width: at.map(|(_, width)| width.max(1)),
        }
    }
}

/// Lines end in a line feed, a carriage return, or both.
fn lines(text: &str) -> Vec<&str> {
    let (mut lines, mut rest) = (Vec::new(), text);
    while let Some((line, after)) = rest.split_once(['\n', '\r']) {
        let both = rest.as_bytes().get(line.len()) == Some(&b'\r');
        lines.push(line);
        rest = after.strip_prefix('\n').filter(|_| both).unwrap_or(after);
    }
    lines.push(rest);
    lines
}

/// What parts the cells of the first line: the one of three that stands there most.
fn separator(text: &str) -> char {
    let first = text.split(['\n', '\r']).next().unwrap_or("");
    let count = |c: char| first.matches(c).count();
    [';', '\t'].into_iter().find(|c| count(*c) > count(',')).unwrap_or(',')
}

struct Cutter<'a> {
    rest: std::iter::Peekable<std::str::Chars<'a>>,
    separator: char,
    line: usize,
    column: usize,
    /// Where a quotation mark was opened that is not closed.
    open: Option<(usize, usize)>,
}

impl<'a> Cutter<'a> {
    fn new(text: &'a str, separator: char) -> Cutter<'a> {
        Cutter { rest: text.chars().peekable(), separator, line: 1, column: 1, open: None }
    }

    fn next(&mut self) -> Option<char> {
        let c = self.rest.next()?;
        if c == '\n' || (c == '\r' && self.rest.peek() != Some(&'\n')) {
            (self.line, self.column) = (self.line + 1, 1);
        } else {
            self.column += 1;
        }
        Some(c)
    }

    /// The next row; `None` at the end.
    fn row(&mut self) -> Option<Vec<Cell>> {
        self.rest.peek()?;
        let mut row = Vec::new();
        loop {
            let (cell, last) = self.cell();
            row.push(cell);
            if last {
                return Some(row);
            }
        }
    }

    /// The next cell, and whether its row ends with it.
    fn cell(&mut self) -> (Cell, bool) {
        while self.rest.peek() == Some(&' ') {
            self.next();
        }
        let (line, column) = (self.line, self.column);
        let mut text = String::new();
        let quoted = self.rest.peek() == Some(&'"');
        if quoted {
            self.next();
            self.quoted(&mut text, (line, column));
        }
        let mut width = if self.line == line { self.column - column } else { 1 };
        let last = loop {
            match self.next() {
                None | Some('\n') => break true,
                Some(c) if c == self.separator => break false,
                Some('\r') if self.rest.peek() == Some(&'\n') => {}
                Some('\r') => break true,
                Some(c) => {
                    text.push(c);
                    width = if self.line == line { self.column - column } else { width };
                }
            }
        };
        let text = if quoted { text } else { text.trim_end().to_owned() };
        (Cell { text, line, column, width }, last)
    }

    /// What stands between quotation marks; two of them are one.
    fn quoted(&mut self, text: &mut String, at: (usize, usize)) {
        loop {
            match self.next() {
                None => {
                    self.open = Some(at);
                    return;
                }
                Some('"') if self.rest.peek() == Some(&'"') => {
                    self.next();
                    text.push('"');
                }
                Some('"') => return,
                Some(c) => text.push(c),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(text: &str) -> Vec<Vec<String>> {
        let table = Table::cut("a.csv", text).unwrap_or_else(|fault| panic!("{fault}"));
        table.rows.into_iter().map(|row| row.into_iter().map(|cell| cell.text).collect()).collect()
    }

    /// The examples of RFC 4180, section 2 (from memory).
    #[test]
    fn cells_are_cut_as_the_standard_says() {
        for text in [
            "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
            "aaa,bbb,ccc\nzzz,yyy,xxx",
            "\u{feff}aaa;bbb;ccc\n\nzzz;yyy;xxx\n",
            "aaa,bbb,ccc\rzzz,yyy,xxx\r",
        ] {
            assert_eq!(texts(text), [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]);
        }
        assert_eq!(texts("\"aaa\",\"b\r\nbb\",\"c\"\"c\"\r\n"), [["aaa", "b\r\nbb", "c\"c"]]);
        assert_eq!(texts("a, b ,\" c \"\n,,\n"), [["a", "b", " c "]]);
    }

    #[test]
    fn a_cell_knows_where_it_stands() {
        let table = Table::cut("a.csv", "a,b\n\"x\ny\", 12 °C\n").unwrap();
        let cell = &table.rows[1][1];
        assert_eq!((cell.text.as_str(), cell.line, cell.column, cell.width), ("12 °C", 3, 5, 5));
        // Line ends of three kinds, in quotation marks too.
        let table = Table::cut("a.csv", "a,b\r\"x\ry\r\nz\",1\r\nc,d").unwrap();
        assert_eq!(table.rows[1][0].text, "x\ry\r\nz");
        let d = &table.rows[2][1];
        assert_eq!((d.line, d.column, table.place(5, None).excerpt.as_deref()), (5, 3, Some("c,d")));
        let fault = Table::cut("a.csv", "a,b\n1,\"2\n").map(drop).unwrap_err();
        assert_eq!((fault.place.line, fault.place.column), (Some(2), Some(3)));
    }
}
