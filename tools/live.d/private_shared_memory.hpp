#pragma once

namespace compline::outside {

/// Gives this process and its children a /dev/shm of their own, until they end.
///
/// All JACK servers and clients of one user share a database there, whatever the server's name, and
/// the first server that ends deletes it. A trial must not do that to a server that the player has
/// running, nor meet another trial there.
///
/// False where the system does not allow it (mount namespaces need root or user namespaces); the
/// trial then runs in the shared one, as any JACK program does.
bool private_shared_memory();

}  // namespace compline::outside
