#pragma once

namespace compline::bench {

/// Plays walking lines through the demo charts in every key with seeds 1 to `seeds`, two choruses
/// each, and prints what they are made of. The figures are the same on every machine.
void print_bass(int seeds);

}  // namespace compline::bench
