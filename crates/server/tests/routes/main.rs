//! The server over real connections on 127.0.0.1. The folders are those of the addresses.

mod access;
mod anything;
mod api;
mod app;
mod aside;
mod desk;
mod office;
mod people;
mod watched;
mod whole;
