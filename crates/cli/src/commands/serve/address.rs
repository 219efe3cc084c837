//! Where an office listens, and whether it may.
//!
//! What goes over a network is read by whoever stands between, and a browser keeps an app for work without a
//! network only when it came over HTTPS. So plain HTTP stays on this machine, unless somebody says that a
//! reverse proxy speaks HTTPS before it.

use crate::args::Serve;
use crate::problem::{MISUNDERSTOOD, NOT_SERVED, Problem};
use server::{Tls, TlsError};
use std::net::{SocketAddr, TcpListener, ToSocketAddrs};

/// The address a person named, such as `127.0.0.1:7420` or `localhost:7420`.
pub(super) fn address(text: &str) -> Result<SocketAddr, Problem> {
    let found = text.to_socket_addrs().ok().and_then(|mut found| found.next());
    found.ok_or_else(|| {
        let what = format!("`{text}` is no address to listen on.");
        let next = "Write this machine's address and a port, such as 127.0.0.1:7420.";
        Problem::new(what, NOT_SERVED, next).exit(MISUNDERSTOOD)
    })
}

/// Where a monitor asks for figures. Any address may be named: that it is named at all says who shall reach it.
pub(super) fn for_figures(text: &str) -> Result<TcpListener, Problem> {
    let address = address(text)?;
    TcpListener::bind(address).map_err(|error| taken(address, &error))
}

/// The certificate, where there is one; a network without one is refused.
pub(super) fn certificate(serve: &Serve, address: SocketAddr) -> Result<Option<Tls>, Problem> {
    let (Some(certificate), Some(key)) = (&serve.certificate, &serve.key) else {
        let allowed = address.ip().is_loopback() || serve.behind_proxy;
        return if allowed { Ok(None) } else { Err(open_to_all(address)) };
    };
    Tls::from_pem(certificate, key).map(Some).map_err(|error| {
        let next = "Give the certificate with those it hangs on and its private key, both as PEM.";
        let what = match &error {
            TlsError::File { path, why } => format!("{}: {why}.", path.display()),
            TlsError::Unfit(why) => format!("The certificate and the key cannot be used: {why}."),
        };
        Problem::new(what, NOT_SERVED, next)
    })
}

fn open_to_all(address: SocketAddr) -> Problem {
    let what = format!("{address} can be reached over the network, and there is no certificate.");
    let next = "Give --certificate and --key, or stay on 127.0.0.1; where a reverse proxy speaks HTTPS to the \
                tablets, say --behind-proxy.";
    let meaning = "Nothing is served: codes and entries would travel for anyone to read, and no tablet would \
                   keep the app for work without a network.";
    Problem::new(what, meaning, next).exit(MISUNDERSTOOD)
}

/// An address that could not be had.
pub(super) fn taken(address: SocketAddr, error: &std::io::Error) -> Problem {
    use std::io::ErrorKind;
    let problem = |what: String, next: &str| Problem::new(what, NOT_SERVED, next);
    match error.kind() {
        ErrorKind::AddrInUse => problem(
            format!("Another program listens on {address} already."),
            "Stop it, or choose another port: --address 127.0.0.1:7421.",
        ),
        ErrorKind::AddrNotAvailable => problem(
            format!("{address} is no address of this machine."),
            "Name one of its addresses, or 0.0.0.0 for all of them.",
        ),
        ErrorKind::PermissionDenied => problem(
            format!("This user may not listen on {address}."),
            "Choose a port above 1023, such as 7420.",
        ),
        _ => problem(format!("Listening on {address} did not work: {error}."), "Choose another address."),
    }
}
