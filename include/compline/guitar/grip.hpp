#pragma once

#include <compline/guitar/shape.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace compline::guitar {

/// The fretting hand's fingers as players number them; none: the string is open or muted.
enum class Finger : std::uint8_t { none, index, middle, ring, little, thumb };
inline constexpr int finger_count = 6;

/// "1" to "4", "T"; empty for none.
[[nodiscard]] std::string_view name_of(Finger finger);

/// A chord shape and the fingers that hold it. A finger on several strings of one fret is a barre.
struct Grip {
    Shape shape;
    std::array<Finger, most_strings> fingers{};  ///< [0] is string 1

    [[nodiscard]] Finger on(int string) const {
        return fingers[static_cast<std::size_t>(string - 1)];
    }

    /// A finger's strings: a barre from the higher to the lower one.
    struct Hold {
        Finger finger = Finger::none;
        int fret = 0;
        int high = 1;  ///< the string with the smaller number
        int low = 1;
        [[nodiscard]] bool is_barre() const { return low != high; }
        bool operator==(const Hold&) const = default;
    };
    /// A hold for each finger that is down, in the order of Finger.
    class Holds {
      public:
        void add(const Hold& hold) { all_[count_++] = hold; }
        [[nodiscard]] const Hold* begin() const { return all_.data(); }
        [[nodiscard]] const Hold* end() const { return all_.data() + count_; }
        [[nodiscard]] bool empty() const { return count_ == 0; }
        [[nodiscard]] const Hold& front() const { return all_[0]; }
        [[nodiscard]] const Hold& back() const { return all_[count_ - 1]; }

      private:
        std::array<Hold, finger_count - 1> all_{};
        std::size_t count_ = 0;
    };
    [[nodiscard]] Holds holds() const;
    [[nodiscard]] std::optional<Hold> hold(Finger finger) const;

    /// "x2x34x": fingers from the lowest string to string 1, 0 for an open string, x for a muted
    /// one.
    [[nodiscard]] std::string finger_text() const;
    bool operator==(const Grip&) const = default;
};

}  // namespace compline::guitar
