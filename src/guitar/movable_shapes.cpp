#include "movable_shapes.hpp"

#include <compline/guitar/hand.hpp>

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace compline::guitar {

namespace {

constexpr int fewest_notes = 2;
constexpr int most_notes = 5;
constexpr int widest = 4;  // widest_span() anywhere

ToneBits tone(harmony::MidiNote note) { return static_cast<ToneBits>(1U << note.pitch_class()); }

/// Walks over the strings, from the lowest on.
class Enumeration {
  public:
    Enumeration(const Fretboard& fretboard, const VoicingWishes& wishes)
        : fretboard_(fretboard), wishes_(wishes) {
        shape_.above.fill(MovableShape::muted);
    }

    std::vector<MovableShape> all() {
        next_string(fretboard_.strings());
        return std::move(shapes_);
    }

  private:
    void next_string(int string) {
        if (string == 0) {
            keep();
            return;
        }
        next_string(string - 1);
        const auto& some = wishes_.strings;
        const bool wished =
            some.empty() || std::find(some.begin(), some.end(), string) != some.end();
        if (!wished || shape_.notes == most_notes) return;
        const int least = wishes_.open_strings ? MovableShape::open : 0;
        for (int above = least; above <= widest; ++above) sound(string, above);
        shape_.above[static_cast<std::size_t>(string - 1)] = MovableShape::muted;
    }

    void sound(int string, int above) {
        const MovableShape before = shape_;
        shape_.above[static_cast<std::size_t>(string - 1)] = static_cast<std::int8_t>(above);
        ++shape_.notes;
        if (above == MovableShape::open) {
            shape_.open_tones |= tone(fretboard_.open(string));
        } else {
            shape_.held_tones |= tone(fretboard_.note({string, above}));
            shape_.span = std::max(shape_.span, static_cast<std::int8_t>(above));
            shape_.all_open = false;
        }
        next_string(string - 1);
        shape_ = before;
    }

    void keep() {
        const bool on_lowest =
            std::find(shape_.above.begin(), shape_.above.end(), 0) != shape_.above.end();
        if (shape_.notes < fewest_notes || (!on_lowest && !shape_.all_open)) return;
        const auto shape = shape_.shape(fretboard_.strings(), shape_.all_open ? 0 : 1);
        if (can_strike(shape, wishes_.right_hand)) shapes_.push_back(shape_);
    }

    const Fretboard& fretboard_;
    const VoicingWishes& wishes_;
    MovableShape shape_;
    std::vector<MovableShape> shapes_;
};

}  // namespace

Shape MovableShape::shape(int strings, int lowest) const {
    Shape shape;
    shape.strings = strings;
    for (int string = 1; string <= strings; ++string) {
        const int fret = on(string);
        if (fret == open) shape.on(string) = 0;
        if (fret >= 0) shape.on(string) = lowest + fret;
    }
    return shape;
}

MovableShapesByTones::MovableShapesByTones(const std::vector<MovableShape>& shapes) {
    std::map<std::tuple<bool, ToneBits, ToneBits>, Group> groups;
    for (const auto& form : shapes) {
        auto& group = groups[{form.all_open, form.open_tones, form.held_tones}];
        group.open = form.open_tones;
        group.held = form.held_tones;
        group.shapes.push_back(form);
    }
    for (auto& [key, group] : groups) {
        (std::get<bool>(key) ? all_open_ : held_).push_back(std::move(group));
    }
}

std::vector<MovableShape> movable_shapes_on(const Fretboard& fretboard,
                                            const VoicingWishes& wishes) {
    return Enumeration(fretboard, wishes).all();
}

}  // namespace compline::guitar
