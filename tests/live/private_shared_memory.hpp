#pragma once

namespace compline::tests {

/// Gives this process and its children a /dev/shm of their own, until they end.
///
/// All JACK servers and clients of one user share a database there, whatever the server's name, and
/// the first server that ends deletes it. A test must not do that to a server that the player has
/// running, nor meet another run of the suite there.
///
/// False where the system does not allow it (mount namespaces need root or user namespaces); the
/// tests then run in the shared one, as any JACK program does.
bool private_shared_memory();

}  // namespace compline::tests
