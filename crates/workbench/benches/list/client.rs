//! A browser as far as this bench needs one: one connection that is kept alive, and packed answers.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;

/// One kept-alive connection.
pub(crate) struct Client {
    host: String,
    connection: BufReader<TcpStream>,
}

impl Client {
    pub(crate) fn at(address: &str) -> Self {
        let host = address.trim_start_matches("http://").trim_end_matches('/').to_owned();
        let connection = TcpStream::connect(&host).unwrap();
        connection.set_nodelay(true).unwrap();
        Self { host, connection: BufReader::new(connection) }
    }

    /// Asks for a page, reads all of it, and tells how many bytes were sent.
    pub(crate) fn get(&mut self, path: &str) -> usize {
        let asked = format!(
            "GET {path} HTTP/1.1\r\nhost: {}\r\naccept-encoding: gzip, deflate, br\r\n\r\n",
            self.host
        );
        self.connection.get_mut().write_all(asked.as_bytes()).unwrap();
        let head = self.head();
        assert!(head.first().unwrap().contains(" 200 "), "{path}: {head:?}");
        let value = |name: &str| {
            head.iter().find_map(|line| line.to_lowercase().strip_prefix(name).map(str::to_owned))
        };
        match value("content-length: ") {
            Some(length) => self.body(length.trim().parse().unwrap()),
            None => self.chunks(),
        }
    }

    fn head(&mut self) -> Vec<String> {
        let mut lines = Vec::new();
        loop {
            let mut line = String::new();
            self.connection.read_line(&mut line).unwrap();
            if line.trim().is_empty() {
                return lines;
            }
            lines.push(line.trim().to_owned());
        }
    }

    fn body(&mut self, length: usize) -> usize {
        let mut bytes = vec![0; length];
        self.connection.read_exact(&mut bytes).unwrap();
        length
    }

    fn chunks(&mut self) -> usize {
        let mut all = 0;
        loop {
            let mut line = String::new();
            self.connection.read_line(&mut line).unwrap();
            let length = usize::from_str_radix(line.trim(), 16).unwrap();
            self.body(length + 2);
            if length == 0 {
                return all;
            }
            all += length;
        }
    }
}
