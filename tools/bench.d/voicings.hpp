#pragma once

namespace compline::bench {

/// What the least motion through a tune saves, against simpler ways to choose: the demo charts and
/// fifty tunes by chance, cost and frets of finger travel. The figures are the same on every
/// machine.
void print_voicings();

}  // namespace compline::bench
