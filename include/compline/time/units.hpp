#pragma once

#include <cmath>
#include <compare>
#include <cstdint>

namespace compline::time {

// Units live in types, so that a beat is never added to a second. Constructors are explicit:
// `wait(5)` does not compile.

/// Written musical time: whole numbers, 960 to the quarter note. Thirds, quarters and swung
/// eighths as written all fall on the grid. Negative before bar 1.
class Ticks {
  public:
    constexpr Ticks() = default;
    constexpr explicit Ticks(std::int64_t n) : n_(n) {}
    [[nodiscard]] constexpr std::int64_t count() const { return n_; }
    auto operator<=>(const Ticks&) const = default;
    constexpr Ticks operator-() const { return Ticks(-n_); }
    constexpr Ticks& operator+=(Ticks o) {
        n_ += o.n_;
        return *this;
    }
    constexpr Ticks& operator-=(Ticks o) {
        n_ -= o.n_;
        return *this;
    }
    friend constexpr Ticks operator+(Ticks a, Ticks b) { return Ticks(a.n_ + b.n_); }
    friend constexpr Ticks operator-(Ticks a, Ticks b) { return Ticks(a.n_ - b.n_); }
    friend constexpr Ticks operator*(Ticks a, std::int64_t k) { return Ticks(a.n_ * k); }
    friend constexpr Ticks operator*(std::int64_t k, Ticks a) { return a * k; }
    friend constexpr std::int64_t operator/(Ticks a, Ticks b) { return a.n_ / b.n_; }
    friend constexpr Ticks operator%(Ticks a, Ticks b) { return Ticks(a.n_ % b.n_); }

  private:
    std::int64_t n_ = 0;
};

inline constexpr Ticks quarter_note{960};
inline constexpr Ticks eighth_note{480};  ///< as written: swing is no matter of ticks

/// Played musical time: quarter notes, with a fraction. What a swing warp or a clock gives back;
/// never what a chart says (that is Ticks). A swung off-beat is no whole number of ticks: rounding
/// it would cost up to half a millisecond at 60 bpm (2026-11-25).
class Beats {
  public:
    constexpr Beats() = default;
    constexpr explicit Beats(double n) : n_(n) {}
    constexpr explicit Beats(Ticks t)
        : n_(static_cast<double>(t.count()) / static_cast<double>(quarter_note.count())) {}
    [[nodiscard]] constexpr double count() const { return n_; }
    auto operator<=>(const Beats&) const = default;
    friend constexpr Beats operator+(Beats a, Beats b) { return Beats(a.n_ + b.n_); }
    friend constexpr Beats operator-(Beats a, Beats b) { return Beats(a.n_ - b.n_); }

  private:
    double n_ = 0;
};

/// A beat of a bar as players count: from 1, with a fraction between two beats (2.5 is 2&). In
/// reports it is a bare number.
class BeatOfBar {
  public:
    constexpr BeatOfBar() = default;
    constexpr explicit BeatOfBar(double number) : number_(number) {}
    /// So far behind the bar line.
    constexpr explicit BeatOfBar(Ticks in_bar) : number_(1 + Beats(in_bar).count()) {}
    [[nodiscard]] constexpr double number() const { return number_; }
    [[nodiscard]] constexpr Beats from_bar_line() const { return Beats(number_ - 1); }
    auto operator<=>(const BeatOfBar&) const = default;

  private:
    double number_ = 1;
};

/// Wall time in seconds. As a point: 0 is bar 1 beat 1 of the first time through.
class Seconds {
  public:
    constexpr Seconds() = default;
    constexpr explicit Seconds(double s) : s_(s) {}
    [[nodiscard]] constexpr double count() const { return s_; }
    [[nodiscard]] constexpr double milliseconds() const { return s_ * 1000.0; }
    auto operator<=>(const Seconds&) const = default;
    constexpr Seconds operator-() const { return Seconds(-s_); }
    constexpr Seconds& operator+=(Seconds o) {
        s_ += o.s_;
        return *this;
    }
    friend constexpr Seconds operator+(Seconds a, Seconds b) { return Seconds(a.s_ + b.s_); }
    friend constexpr Seconds operator-(Seconds a, Seconds b) { return Seconds(a.s_ - b.s_); }
    friend constexpr Seconds operator*(Seconds a, double k) { return Seconds(a.s_ * k); }
    friend constexpr double operator/(Seconds a, Seconds b) { return a.s_ / b.s_; }

  private:
    double s_ = 0;
};

[[nodiscard]] constexpr Seconds from_milliseconds(double ms) { return Seconds(ms / 1000.0); }
[[nodiscard]] inline Seconds abs(Seconds s) { return Seconds(std::fabs(s.count())); }

/// A moment on the machine's steady clock: nanoseconds since it was started. Whoever reads the
/// clock passes it in; nothing here does.
class Instant {
  public:
    constexpr Instant() = default;
    constexpr explicit Instant(std::int64_t nanoseconds) : ns_(nanoseconds) {}
    [[nodiscard]] constexpr std::int64_t nanoseconds() const { return ns_; }
    auto operator<=>(const Instant&) const = default;
    friend Instant operator+(Instant i, Seconds s) {
        return Instant(i.ns_ + std::llround(s.count() * 1e9));
    }
    /// Exact to the nanosecond over hours: subtracted as whole numbers.
    friend constexpr Seconds operator-(Instant a, Instant b) {
        return Seconds(static_cast<double>(a.ns_ - b.ns_) / 1e9);
    }

  private:
    std::int64_t ns_ = 0;
};

/// A count of audio frames, or a position in a stream of them.
class Frames {
  public:
    constexpr Frames() = default;
    constexpr explicit Frames(std::int64_t n) : n_(n) {}
    [[nodiscard]] constexpr std::int64_t count() const { return n_; }
    auto operator<=>(const Frames&) const = default;
    friend constexpr Frames operator+(Frames a, Frames b) { return Frames(a.n_ + b.n_); }
    friend constexpr Frames operator-(Frames a, Frames b) { return Frames(a.n_ - b.n_); }

  private:
    std::int64_t n_ = 0;
};

/// Frames a second, 8,000 to 384,000.
class SampleRate {
  public:
    constexpr explicit SampleRate(int hz) : hz_(hz) {}
    [[nodiscard]] constexpr int hz() const { return hz_; }
    auto operator<=>(const SampleRate&) const = default;

  private:
    int hz_;
};

/// The frame nearest to a time.
[[nodiscard]] inline Frames nearest_frame(Seconds t, SampleRate rate) {
    return Frames(std::llround(t.count() * rate.hz()));
}
[[nodiscard]] constexpr Seconds time_of(Frames f, SampleRate rate) {
    return Seconds(static_cast<double>(f.count()) / rate.hz());
}

/// Quarter notes a minute. Charts allow 30 to 400.
class Bpm {
  public:
    constexpr explicit Bpm(double n) : n_(n) {}
    [[nodiscard]] constexpr double count() const { return n_; }
    /// How long a quarter note lasts.
    [[nodiscard]] constexpr Seconds beat() const { return Seconds(60.0 / n_); }
    auto operator<=>(const Bpm&) const = default;

  private:
    double n_;
};

}  // namespace compline::time
