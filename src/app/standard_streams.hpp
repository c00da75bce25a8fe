#pragma once

namespace compline::app {

/// Makes stdin, stdout and stderr safe to use, whatever they are: call it before any file is
/// opened. One that is closed is held by something that cannot be written to; otherwise the next
/// file opened, a take say, would get its number and with it all that is meant for the player.
/// Writing to a pipe that nobody reads, or beyond a limit of the user's, fails and ends nothing.
void secure_standard_streams();

}  // namespace compline::app
