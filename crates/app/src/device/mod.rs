//! The device: storage, keys, outbox, clock, the way to the server.
