//! The server over real connections on 127.0.0.1. The folders are those of the addresses.

mod access;
mod anything;
mod api;
mod app;
mod aside;
mod authenticator;
mod desk;
mod office;
mod passkeys;
mod people;
mod watched;
mod whole;
