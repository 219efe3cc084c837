//! Connections: taken one by one, given a time for everything, and closed in peace at the end.

use crate::answer;
use crate::door::Peer;
use crate::routes;
use crate::running::Shared;
use crate::tls::Tls;
use axum::Router;
use axum::body::Body;
use axum::extract::Request;
use hyper_util::rt::{TokioExecutor, TokioIo, TokioTimer};
use hyper_util::server::conn::auto::Builder;
use hyper_util::server::graceful::{GracefulShutdown, Watcher};
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Semaphore;
use tokio::time::{sleep, timeout};

/// Between two attempts to take a connection when the machine has no room for one.
const BREATH: Duration = Duration::from_millis(50);

/// How often a silent HTTP/2 connection is asked whether it is there, and how long it may take to say so.
const SILENCE: Duration = Duration::from_secs(20);

/// What every connection needs.
#[derive(Clone)]
struct Door {
    shared: Arc<Shared>,
    routes: Router,
    tls: Option<Tls>,
}

/// Takes connections until the server is to stop, then waits for those that are open.
pub(crate) async fn accept(shared: Arc<Shared>, listener: TcpListener, tls: Option<Tls>) {
    let places = Arc::new(Semaphore::new(shared.site.limits.connections));
    let graceful = GracefulShutdown::new();
    let mut stop = shared.stop.clone();
    let door = Door { routes: routes::all(&shared), shared, tls };
    loop {
        let Ok(place) = Arc::clone(&places).acquire_owned().await else { break };
        let taken = tokio::select! {
            taken = listener.accept() => taken,
            _ = stop.wait_for(|stop| *stop) => break,
        };
        match taken {
            Ok((stream, peer)) => {
                let (door, watcher) = (door.clone(), graceful.watcher());
                let open = door.shared.meter.connection();
                tokio::spawn(async move {
                    door.serve(stream, peer, watcher).await;
                    drop((place, open));
                });
            }
            // Out of file handles, or a connection that was gone before it was taken.
            Err(_) => sleep(BREATH).await,
        }
    }
    drop(listener);
    graceful.shutdown().await;
}

impl Door {
    async fn serve(self, stream: TcpStream, peer: SocketAddr, watcher: Watcher) {
        drop(stream.set_nodelay(true));
        match self.tls.clone() {
            None => self.talk(stream, peer, watcher).await,
            Some(tls) => {
                let patience = self.shared.site.limits.patience;
                // Who cannot agree on a key cannot be told anything either.
                if let Ok(Ok(stream)) = timeout(patience, tls.0.accept(stream)).await {
                    self.talk(stream, peer, watcher).await;
                }
            }
        }
    }

    async fn talk<S>(self, stream: S, peer: SocketAddr, watcher: Watcher)
    where
        S: AsyncRead + AsyncWrite + Unpin + Send + 'static,
    {
        let Door { shared, routes, .. } = self;
        let patience = shared.site.limits.patience;
        let service = hyper_util::service::TowerToHyperService::new(Routed { shared, routes, peer });
        let mut builder = Builder::new(TokioExecutor::new());
        builder.http1().timer(TokioTimer::new()).header_read_timeout(patience);
        builder.http2().timer(TokioTimer::new()).keep_alive_interval(SILENCE).keep_alive_timeout(SILENCE);
        let connection = builder.serve_connection(TokioIo::new(stream), service).into_owned();
        // A connection that breaks off is no news: the tablet comes again.
        drop(watcher.watch(connection).await);
    }
}

/// The routes as one connection sees them.
#[derive(Clone)]
struct Routed {
    shared: Arc<Shared>,
    routes: Router,
    peer: SocketAddr,
}

impl<B> tower_service::Service<axum::http::Request<B>> for Routed
where
    B: axum::body::HttpBody<Data = axum::body::Bytes> + Send + 'static,
    B::Error: Into<axum::BoxError>,
{
    type Response = axum::response::Response;
    type Error = std::convert::Infallible;
    type Future = std::pin::Pin<Box<dyn Future<Output = Result<Self::Response, Self::Error>> + Send>>;

    fn poll_ready(&mut self, _: &mut std::task::Context<'_>) -> std::task::Poll<Result<(), Self::Error>> {
        std::task::Poll::Ready(Ok(()))
    }

    fn call(&mut self, request: axum::http::Request<B>) -> Self::Future {
        let Routed { shared, routes, peer } = self.clone();
        let mut request: Request = request.map(Body::new);
        request.extensions_mut().insert(Peer(peer));
        Box::pin(answer::answer(shared, routes, request))
    }
}
