//! The program with its pages open, and a client that speaks to its socket in plain HTTP/1.1 (RFC 9112).

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};

/// Run the program to its end: exit code, standard output, standard error.
pub fn said(arguments: &[&str], variables: &[(&str, &Path)]) -> (i32, String, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    let out = command.args(arguments).envs(variables.iter().copied()).output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (out.status.code().unwrap(), text(out.stdout), text(out.stderr))
}

/// What a letter shows in a blank.
pub fn value(letter: &str, field: &str) -> String {
    let at = format!("name=\"{field}\" value=\"");
    let rest =
        letter.split_once(&at).unwrap_or_else(|| panic!("no blank {field} in a page of {} bytes", letter.len())).1;
    rest.split('"').next().unwrap().to_owned()
}

/// A program whose pages are open; it is killed when it is dropped.
pub struct Program {
    child: Child,
    port: u16,
    /// What it said when it opened.
    pub said: String,
}

impl Drop for Program {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Program {
    /// `tapmere open` over a book.
    pub fn open(book: &Path) -> Program {
        Program::start(Command::new(env!("CARGO_BIN_EXE_tapmere")).arg("open").arg(book))
    }

    /// Start it and wait until its pages are open.
    pub fn start(command: &mut Command) -> Program {
        let mut child = command.stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
        let lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let mut program = Program { child, port: 0, said: String::new() };
        for line in lines.map(Result::unwrap) {
            if let Some((_, rest)) = line.split_once("http://127.0.0.1:") {
                program.port = rest.split('/').next().unwrap().parse().unwrap();
            }
            program.said += &line;
            if line.starts_with("Ctrl-C") {
                return program;
            }
        }
        panic!("{command:?} ended: {}", program.said);
    }

    /// End it with SIGKILL: it can't finish anything.
    pub fn kill(mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// Read a page.
    pub fn get(&self, path: &str) -> Answer {
        self.send("GET", path, "")
    }

    /// Send a form, as a page of the program would.
    pub fn post(&self, path: &str, form: &str) -> Answer {
        self.send("POST", path, form)
    }

    fn send(&self, method: &str, path: &str, body: &str) -> Answer {
        let at = format!("127.0.0.1:{}", self.port);
        let mut stream = TcpStream::connect(&at).unwrap();
        let request = format!(
            "{method} {path} HTTP/1.1\r\nHost: {at}\r\nOrigin: http://{at}\r\nConnection: close\r\n\
             Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n{body}",
            body.len()
        );
        stream.write_all(request.as_bytes()).unwrap();
        let mut text = String::new();
        stream.read_to_string(&mut text).unwrap();
        let (head, body) = text.split_once("\r\n\r\n").unwrap();
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        let location = head.lines().find_map(|line| line.strip_prefix("location: ")).map(str::to_owned);
        Answer { status, location, body: body.to_owned() }
    }
}

/// What came back.
pub struct Answer {
    /// The status.
    pub status: u16,
    location: Option<String>,
    /// The page.
    pub body: String,
}

impl Answer {
    /// Where it leads; it must lead somewhere.
    pub fn leads_to(&self) -> String {
        assert_eq!(self.status, 303, "{}", self.body);
        self.location.clone().unwrap()
    }
}
