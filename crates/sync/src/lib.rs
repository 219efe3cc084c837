//! What do you lack: how two copies of a record come to be the same, without a transport.
