#include "forms.hpp"

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

Tones tone(harmony::MidiNote note) { return static_cast<Tones>(1U << note.pitch_class()); }

/// Walks over the strings, from the lowest on.
class Enumeration {
  public:
    Enumeration(const Fretboard& fretboard, const VoicingWishes& wishes)
        : fretboard_(fretboard), wishes_(wishes) {
        form_.above.fill(Form::muted);
    }

    std::vector<Form> all() {
        next_string(fretboard_.strings());
        return std::move(forms_);
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
        if (!wished || form_.notes == most_notes) return;
        const int least = wishes_.open_strings ? Form::open : 0;
        for (int above = least; above <= widest; ++above) sound(string, above);
        form_.above[static_cast<std::size_t>(string - 1)] = Form::muted;
    }

    void sound(int string, int above) {
        const Form before = form_;
        form_.above[static_cast<std::size_t>(string - 1)] = static_cast<std::int8_t>(above);
        ++form_.notes;
        if (above == Form::open) {
            form_.open_tones |= tone(fretboard_.open(string));
        } else {
            form_.held_tones |= tone(fretboard_.note({string, above}));
            form_.span = std::max(form_.span, static_cast<std::int8_t>(above));
            form_.all_open = false;
        }
        next_string(string - 1);
        form_ = before;
    }

    void keep() {
        const bool on_lowest =
            std::find(form_.above.begin(), form_.above.end(), 0) != form_.above.end();
        if (form_.notes < fewest_notes || (!on_lowest && !form_.all_open)) return;
        const auto shape = form_.shape(fretboard_.strings(), form_.all_open ? 0 : 1);
        if (can_strike(shape, wishes_.right_hand)) forms_.push_back(form_);
    }

    const Fretboard& fretboard_;
    const VoicingWishes& wishes_;
    Form form_;
    std::vector<Form> forms_;
};

}  // namespace

Shape Form::shape(int strings, int lowest) const {
    Shape shape;
    shape.strings = strings;
    for (int string = 1; string <= strings; ++string) {
        const int fret = on(string);
        if (fret == open) shape.on(string) = 0;
        if (fret >= 0) shape.on(string) = lowest + fret;
    }
    return shape;
}

FormsByTones::FormsByTones(const std::vector<Form>& forms) {
    std::map<std::tuple<bool, Tones, Tones>, Group> groups;
    for (const auto& form : forms) {
        auto& group = groups[{form.all_open, form.open_tones, form.held_tones}];
        group.open = form.open_tones;
        group.held = form.held_tones;
        group.forms.push_back(form);
    }
    for (auto& [key, group] : groups) {
        (std::get<bool>(key) ? all_open_ : held_).push_back(std::move(group));
    }
}

std::vector<Form> forms_on(const Fretboard& fretboard, const VoicingWishes& wishes) {
    return Enumeration(fretboard, wishes).all();
}

}  // namespace compline::guitar
