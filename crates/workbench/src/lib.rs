//! The workbench: the house in a browser on this machine.
//!
//! Thin, like the command line: a request comes in, one use case of the house is told to run, and its
//! answer goes out as a page. Start at [`open`]; `routes` lists every page by the job it belongs to,
//! and `gate` says who may come in. It knows no science, no SQL and no files but those that are being
//! brought in.

use crate::desk::Desk;
use axum::serve::ListenerExt;
use house::folder::House;
use std::io;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use tokio::runtime;

mod assets;
mod desk;
mod download;
mod fields;
mod first_steps;
mod gate;
mod incoming;
mod page;
mod pager;
mod routes;
mod sales;
mod telling;
mod trouble;
mod whose;

mod forecast;
mod frost;
mod gaps;
mod list;
mod standins;
mod variety;
mod what;

mod growouts;

mod advice;
mod calendar;
mod emergence;
mod hindsight;
mod ripening;
mod seed_room;
mod warmth;

mod bring_in;
mod doubts;
mod history;
mod law;
mod names;
mod photo;
mod quarantine;
mod records;
mod weather;

mod guides;
mod print;
mod settings;
mod type_chart;

/// Threads that answer requests; the house's own work runs beside them. A choice of ours: one keeper and
/// perhaps a helper use a workbench at a time.
const ANSWERING_THREADS: usize = 2;

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
        let threads =
            runtime::Builder::new_multi_thread().worker_threads(ANSWERING_THREADS).enable_all().build()?;
        threads.block_on(async {
            self.listener.set_nonblocking(true)?;
            // A page that is packed as it is made leaves in pieces. Held back until the browser has confirmed the
            // last piece, each page took 40 ms longer; a connection that refuses this is only slower.
            let listener = tokio::net::TcpListener::from_std(self.listener)?.tap_io(|connection| {
                let _ = connection.set_nodelay(true);
            });
            axum::serve(listener, router(&self.house)).with_graceful_shutdown(interrupted()).await
        })
    }
}

/// Every page of a house's workbench, behind its gate, for a server or for tests.
pub fn router(house: &House) -> axum::Router {
    routes::all(Desk::at(&house.folder))
}

async fn interrupted() {
    // Where the system cannot tell of an interruption, the workbench is served until it is ended.
    if tokio::signal::ctrl_c().await.is_err() {
        std::future::pending::<()>().await;
    }
}
