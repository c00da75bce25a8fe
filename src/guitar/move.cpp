#include <compline/guitar/move.hpp>

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <optional>

namespace compline::guitar {

namespace {

using harmony::MidiNote;

std::vector<MidiNote> notes_of(const Fretboard& fretboard, const Shape& shape) {
    std::vector<MidiNote> notes;
    for (const auto& place : shape.places()) notes.push_back(fretboard.note(place));
    std::sort(notes.begin(), notes.end());
    return notes;
}

/// The string a finger is followed by: one it had before and has now, else its highest.
FingerMove follow(Finger finger, const std::optional<Grip::Hold>& from,
                  const std::optional<Grip::Hold>& to) {
    FingerMove move;
    move.finger = finger;
    move.from_string = from ? from->high : 0;
    move.to_string = to ? to->high : 0;
    if (!from || !to) {
        move.act = to ? Act::lands : Act::lifts;
        return move;
    }
    move.frets = to->fret - from->fret;
    const int shared = std::max(from->high, to->high);
    const bool on_one_string = shared <= std::min(from->low, to->low);
    if (on_one_string) move.from_string = move.to_string = shared;
    move.act = !on_one_string ? Act::moves : move.frets == 0 ? Act::stays : Act::slides;
    return move;
}

bool all_slide_alike(const Grip& from, const Grip& to, const std::vector<FingerMove>& fingers) {
    if (fingers.empty() || from.fingers != to.fingers) return false;
    return std::all_of(fingers.begin(), fingers.end(), [&](const FingerMove& move) {
        return move.act == Act::slides && move.frets == fingers.front().frets;
    });
}

}  // namespace

int VoiceMove::semitones() const { return std::abs(to.number() - from.number()); }

bool Move::is_guided() const {
    return std::any_of(fingers.begin(), fingers.end(), [](const FingerMove& move) {
        return move.act == Act::stays || move.act == Act::slides;
    });
}

int Move::travel() const {
    int frets = 0;
    for (const auto& move : fingers) frets += std::abs(move.frets);
    return frets;
}

int Move::semitones() const {
    int sum = 0;
    for (const auto& voice : voices) sum += voice.semitones();
    return sum;
}

std::vector<VoiceMove> least_motion(const std::vector<MidiNote>& from,
                                    const std::vector<MidiNote>& to) {
    // Voices need not cross: with both sides ascending, pairs in order move least. Which notes of
    // the larger side are left out is what there is to find, one row a note of the smaller side.
    const bool swapped = from.size() > to.size();
    const auto& few = swapped ? to : from;
    const auto& many = swapped ? from : to;
    constexpr int far = std::numeric_limits<int>::max() / 2;
    std::vector<std::vector<int>> least(few.size() + 1, std::vector<int>(many.size() + 1, far));
    std::fill(least[0].begin(), least[0].end(), 0);
    for (std::size_t i = 1; i <= few.size(); ++i) {
        for (std::size_t j = i; j <= many.size(); ++j) {
            const int motion = std::abs(few[i - 1].number() - many[j - 1].number());
            least[i][j] = std::min(least[i][j - 1], least[i - 1][j - 1] + motion);
        }
    }
    std::vector<VoiceMove> voices;
    std::size_t i = few.size();
    for (std::size_t j = many.size(); i > 0; --j) {
        if (least[i][j] == least[i][j - 1]) continue;
        --i;
        voices.push_back(swapped ? VoiceMove{many[j - 1], few[i]} : VoiceMove{few[i], many[j - 1]});
    }
    std::reverse(voices.begin(), voices.end());
    return voices;
}

std::optional<int> under_index(const Grip::Holds& holds) {
    std::optional<int> lowest;
    for (const auto& hold : holds) {
        if (hold.finger == Finger::thumb) continue;
        const int fret = hold.fret - static_cast<int>(hold.finger) + 1;
        if (hold.finger == Finger::index) return fret;
        lowest = std::min(lowest.value_or(fret), fret);
    }
    return lowest;
}

std::optional<int> hand_position(const Grip::Holds& holds) {
    const auto fret = under_index(holds);
    return fret ? std::max(1, *fret) : fret;
}

std::optional<int> hand_position(const Grip& grip) { return hand_position(grip.holds()); }

Move move_between(const Fretboard& fretboard, const Grip& from, const Grip& to) {
    Move move;
    for (int n = 1; n < finger_count; ++n) {
        const auto finger = static_cast<Finger>(n);
        const auto before = from.hold(finger);
        const auto after = to.hold(finger);
        if (before || after) move.fingers.push_back(follow(finger, before, after));
    }
    const auto old_notes = notes_of(fretboard, from.shape);
    const auto new_notes = notes_of(fretboard, to.shape);
    move.voices = least_motion(old_notes, new_notes);
    if (!old_notes.empty() && !new_notes.empty()) move.top = {old_notes.back(), new_notes.back()};
    const auto old_position = hand_position(from);
    const auto new_position = hand_position(to);
    if (old_position && new_position) move.hand = *new_position - *old_position;
    move.whole_grip = all_slide_alike(from, to, move.fingers);
    return move;
}

}  // namespace compline::guitar
