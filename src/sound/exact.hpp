#pragma once

namespace compline::sound {

// Sines and powers made of sums and products alone, which every machine rounds alike. Those of the
// C library differ in their last bit between its versions and from one processor to another, and
// 100,000 samples of a recurrence later that is another file.

/// e to the power of x, -50 to 50.
[[nodiscard]] double exponential(double x);

/// The sine of an angle in turns (1 is the whole circle).
[[nodiscard]] double sine(double turns);
[[nodiscard]] inline double cosine(double turns) { return sine(turns + 0.25); }

/// 2 to the power of x: so many octaves.
[[nodiscard]] inline double octaves_up(double x) { return exponential(0.6931471805599453 * x); }

/// The factor from one sample to the next of what decays to 1/e in `frames`.
[[nodiscard]] inline double shrink_of(double frames) { return exponential(-1.0 / frames); }

}  // namespace compline::sound
