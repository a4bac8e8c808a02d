//! Text of an amount, cut into numbers, words and signs. Nothing here knows what a word means.

use crate::Fault;
use crate::comparator::Comparator;

/// One piece of the text.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Token {
    /// Letters, digits behind letters, a charge behind those; also `°dH`, `%`. As written.
    Word(String),
    /// A number as written, not yet read.
    Number(String),
    /// `/` or the word "per".
    Slash,
    /// Any dash that is no sign of a number, or two dots and more.
    Dash,
    /// `<`, `>`, `~` and their kin.
    Compare(Comparator),
    /// `±`, `+/-`.
    PlusMinus,
    /// `@`
    At,
    /// `:`, `=`
    Colon,
    /// Brackets, the dot of multiplication: they part words and mean nothing else.
    Gap,
    /// Where the number stood, once it is taken out.
    Place,
}

/// One spelling for what Unicode spells in many ways: dashes, spaces, micro, degree, raised and lowered digits.
pub(crate) fn tidy(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{207b}' | '\u{208b}' => out.push('-'),
            '\u{207a}' | '\u{208a}' => out.push('+'),
            '\u{b5}' | '\u{3bc}' => out.push('u'),
            '\u{ba}' | '\u{2da}' => out.push('°'),
            '\u{2103}' => out.push_str("°C"),
            '\u{2109}' => out.push_str("°F"),
            '\u{2113}' => out.push('l'),
            '\u{2019}' | '\u{2bc}' => out.push('\''),
            '\u{2219}' | '\u{22c5}' => out.push('·'),
            '\u{b9}' => out.push('1'),
            '\u{b2}' => out.push('2'),
            '\u{b3}' => out.push('3'),
            '\u{2070}' | '\u{2074}'..='\u{2079}' => push_digit(&mut out, c as u32 - 0x2070),
            '\u{2080}'..='\u{2089}' => push_digit(&mut out, c as u32 - 0x2080),
            c if c.is_whitespace() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

fn push_digit(out: &mut String, digit: u32) {
    out.extend(char::from_digit(digit, 10));
}

/// The text as a message shows it: trimmed, at most 60 characters.
pub(crate) fn shorten(text: &str) -> String {
    let text = text.trim();
    if text.chars().count() <= 60 { text.to_owned() } else { text.chars().take(59).chain(['…']).collect() }
}

/// Cut a text. Input of more than 200 characters is refused: no amount is that long.
pub(crate) fn lex(text: &str) -> Result<Vec<Token>, Fault> {
    if text.chars().count() > 200 {
        return Err(Fault::new("the text is too long for an amount")
            .expected("at most 200 characters")
            .hint("one amount to a field, without notes"));
    }
    let chars: Vec<char> = tidy(text).chars().collect();
    let mut lexer = Lexer { chars, at: 0, tokens: Vec::new() };
    while lexer.at < lexer.chars.len() {
        lexer.step(text)?;
    }
    Ok(lexer.tokens)
}

struct Lexer {
    chars: Vec<char>,
    at: usize,
    tokens: Vec<Token>,
}

impl Lexer {
    fn peek(&self, ahead: usize) -> char {
        self.chars.get(self.at + ahead).copied().unwrap_or(' ')
    }

    fn push(&mut self, token: Token, length: usize) {
        self.tokens.push(token);
        self.at += length;
    }

    fn step(&mut self, text: &str) -> Result<(), Fault> {
        let next = self.peek(1);
        match self.peek(0) {
            ' ' => self.at += 1,
            '0'..='9' => self.number(),
            '.' if next == '.' => {
                let dots = self.chars[self.at..].iter().take_while(|&&c| c == '.').count();
                self.push(Token::Dash, dots);
            }
            '.' | ',' if next.is_ascii_digit() => self.number(),
            '.' | ',' | ';' => self.at += 1,
            '…' => self.push(Token::Dash, 1),
            '-' => self.dash(),
            '+' if next == '/' && self.peek(2) == '-' => self.push(Token::PlusMinus, 3),
            '+' if next.is_ascii_digit() => self.number(),
            '±' => self.push(Token::PlusMinus, 1),
            '/' => self.push(Token::Slash, 1),
            '_' => self.push(Token::Dash, 1),
            '@' => self.push(Token::At, 1),
            ':' | '=' => self.push(Token::Colon, 1),
            '(' | ')' | '[' | ']' | '·' | '*' => self.push(Token::Gap, 1),
            '<' | '≤' | '⩽' => self.compare(Comparator::Below),
            '>' | '≥' | '⩾' => self.compare(Comparator::Above),
            '~' | '≈' | '≅' => self.compare(Comparator::About),
            '%' => self.push(Token::Word("%".to_owned()), 1),
            c if c.is_alphabetic() || c == '°' || c == '$' || c == '€' || c == '£' => self.word(),
            c => {
                return Err(Fault::new(format!("`{c}` in `{}` is not understood", shorten(text)))
                    .expected("an amount with its unit, such as 12.5 mg/L")
                    .hint("leave the character out"));
            }
        }
        Ok(())
    }

    fn compare(&mut self, comparator: Comparator) {
        let length = if self.peek(1) == '=' { 2 } else { 1 };
        self.push(Token::Compare(comparator), length);
    }

    /// A dash is a sign if a number follows at once and none stands right before it.
    fn dash(&mut self) {
        let follows =
            self.peek(1).is_ascii_digit() || (matches!(self.peek(1), '.' | ',') && self.peek(2).is_ascii_digit());
        let spaced = self.at == 0 || self.chars[self.at - 1] == ' ';
        let counted = self.tokens.iter().any(|t| matches!(t, Token::Number(_)));
        let sign = match self.tokens.last() {
            None | Some(Token::Compare(_) | Token::Dash | Token::Colon | Token::At | Token::PlusMinus) => true,
            Some(Token::Word(w)) if is_range_word(w) => true,
            _ => spaced && !counted,
        };
        if follows && sign { self.number() } else { self.push(Token::Dash, 1) }
    }

    fn number(&mut self) {
        if self.charge_apart() {
            self.at += 2;
            return;
        }
        let start = self.at;
        self.at += usize::from(matches!(self.peek(0), '-' | '+'));
        let (mut signs, mut run) = (0, 0);
        loop {
            let (c, next) = (self.peek(0), self.peek(1));
            let group = || (1..=3).all(|i| self.peek(i).is_ascii_digit()) && !self.peek(4).is_ascii_digit();
            match c {
                '0'..='9' => run += 1,
                '.' | ',' | '\'' if next.is_ascii_digit() => (signs, run) = (signs + usize::from(c != '\''), 0),
                ' ' if signs == 0 && (1..=3).contains(&run) && group() => run = 0,
                _ => break,
            }
            self.at += 1;
        }
        self.at += self.power();
        let raw = self.chars[start..self.at].iter().collect();
        self.tokens.push(Token::Number(raw));
    }

    /// Length of `e-4` or ` × 10^-4` at this place, 0 if there is none.
    fn power(&self) -> usize {
        let digits = |from: usize| (from..).take_while(|&i| self.peek(i).is_ascii_digit()).count();
        let signed = |from: usize| {
            let sign = usize::from(matches!(self.peek(from), '-' | '+'));
            let n = digits(from + sign);
            if n == 0 { 0 } else { sign + n }
        };
        if matches!(self.peek(0), 'e' | 'E') {
            let n = signed(1);
            return if n == 0 { 0 } else { 1 + n };
        }
        let mut i = usize::from(self.peek(0) == ' ');
        if !matches!(self.peek(i), '×' | 'x' | '*' | '·') {
            return 0;
        }
        i += 1;
        i += usize::from(self.peek(i) == ' ');
        if (self.peek(i), self.peek(i + 1)) != ('1', '0') {
            return 0;
        }
        i += 2;
        i += usize::from(self.peek(i) == '^');
        let n = signed(i);
        if n == 0 { 0 } else { i + n }
    }

    /// `SO4 2-`, `Ca 2+`: a charge that stands apart from its ion.
    fn charge_apart(&self) -> bool {
        let after = self.chars.get(self.at + 2..).unwrap_or_default().iter().find(|&&c| c != ' ');
        matches!(self.tokens.last(), Some(Token::Word(_)))
            && matches!(self.peek(0), '1'..='3')
            && matches!(self.peek(1), '-' | '+')
            && matches!(self.peek(2), ' ' | ')' | '/')
            && !after.is_some_and(|c| c.is_ascii_digit())
    }

    fn word(&mut self) {
        let mut word = String::new();
        if self.peek(0) == '°' {
            word.push('°');
            self.at += 1;
            // "20 ° C"
            while self.peek(0) == ' ' && self.at < self.chars.len() {
                self.at += 1;
            }
        }
        while self.peek(0).is_alphanumeric() || matches!(self.peek(0), '$' | '€' | '£') {
            word.push(self.peek(0));
            self.at += 1;
        }
        let lower = word.to_lowercase();
        let power = self.peek(0) == '-' && matches!(self.peek(1), '1' | '3') && !self.peek(2).is_ascii_digit();
        if power && matches!(lower.as_str(), "l" | "dm" | "m" | "cm" | "kg") {
            // "mg L-1", "µS cm-1", "g m-3"
            let cubed = if self.peek(1) == '3' { "3" } else { "" };
            self.at += 2;
            self.tokens.push(Token::Slash);
            self.tokens.push(Token::Word(format!("{word}{cubed}")));
            return;
        }
        // The charge of an ion: NO3-, Ca2+, Ca++.
        while matches!(self.peek(0), '-' | '+') && !self.peek(1).is_alphanumeric() {
            if self.peek(1) == '/' && self.peek(2) == '-' {
                break;
            }
            self.at += 1;
        }
        match lower.as_str() {
            "per" => self.tokens.push(Token::Slash),
            "below" | "under" => self.tokens.push(Token::Compare(Comparator::Below)),
            "above" | "over" => self.tokens.push(Token::Compare(Comparator::Above)),
            "about" | "approx" | "approximately" | "circa" => self.tokens.push(Token::Compare(Comparator::About)),
            "ca" if self.peek(0) == '.' => self.tokens.push(Token::Compare(Comparator::About)),
            _ => self.tokens.push(Token::Word(word)),
        }
    }
}

pub(crate) fn is_range_word(word: &str) -> bool {
    matches!(word.to_lowercase().as_str(), "to" | "bis" | "à" | "and")
}
