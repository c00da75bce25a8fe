#include "sounding.hpp"

#include <compline/guitar/fretboard.hpp>

#include <algorithm>
#include <map>
#include <utility>

namespace compline::assess {

using listen::Note;
using time::Seconds;

namespace {

/// Fingers that lift as the next chord is struck may sound this long into it; also how long a
/// string may take to join its strum's chord.
constexpr Seconds settling{0.030};

/// No note of a guitar rings longer than this; bounds how far back to look.
constexpr Seconds longest_ring{30.0};

/// As many as two guitars could sound. A damaged file may say that thousands ring, and all of them
/// into each strum that follows.
constexpr std::size_t most_ringing = 2 * std::size_t{guitar::most_strings};

bool on_string_of(const listen::Strum& strum, const Note& note) {
    return std::any_of(strum.notes.begin(), strum.notes.end(), [&](const Note& n) {
        return n.string && note.string ? n.string == note.string : n.note == note.note;
    });
}

/// The newest note of each string, of each pitch where strings are not known, among those from one
/// place to another in the order of onset. Neither place goes back, so that each note is looked at
/// once, however many begin together.
class Newest {
  public:
    explicit Newest(const std::vector<Note>& notes) : notes_(notes) {}

    /// Those from `from` on that begin until `until`, in order, as indices.
    std::vector<std::size_t> between(std::size_t from, Seconds until) {
        for (to_ = std::max(to_, from); to_ < notes_.size() && notes_[to_].on <= until; ++to_) {
            const Note& note = notes_[to_];
            newest_[note.string ? -*note.string : note.note.number()] = to_;
        }
        std::erase_if(newest_, [&](const auto& one) { return one.second < from; });
        std::vector<std::size_t> found;
        for (const auto& one : newest_) found.push_back(one.second);
        std::sort(found.begin(), found.end());
        return found;
    }

  private:
    const std::vector<Note>& notes_;
    std::size_t to_ = 0;
    std::map<int, std::size_t> newest_;
};

/// What rings when something else is struck, the newest last.
class Ringing {
  public:
    void add(const std::vector<Note>& struck) {
        notes_.insert(notes_.end(), struck.begin(), struck.end());
    }
    /// Forgets what has ended by then.
    void pass(Seconds at) {
        std::erase_if(notes_, [&](const Note& note) { return note.off <= at; });
        if (notes_.size() > most_ringing) notes_.erase(notes_.begin(), notes_.end() - most_ringing);
    }
    [[nodiscard]] const std::vector<Note>& notes() const { return notes_; }

  private:
    std::vector<Note> notes_;
};

/// The strum brings a note that none of these is.
bool brings_new_note(const listen::Strum& strum, const std::vector<Note>& before) {
    return std::any_of(strum.notes.begin(), strum.notes.end(), [&](const Note& note) {
        return std::none_of(before.begin(), before.end(), [&](const Note& n) {
            return n.note == note.note && n.string == note.string;
        });
    });
}

}  // namespace

std::vector<SoundingStrum> sounding_strums(const std::vector<Note>& notes, const Grid& grid) {
    std::vector<SoundingStrum> strums;
    Ringing ringing;
    Newest newest(notes);
    std::size_t next = 0;
    for (auto& strum : listen::group_strums(notes)) {
        SoundingStrum item;
        const Seconds settled = strum.last() + settling;
        const Seconds let_go =
            std::max(settled, strum.first() + grid.pace_at(strum.first()).ring_limit);
        ringing.pass(strum.first());
        item.sounding = strum.notes;
        for (const Note& note : ringing.notes()) {
            if (note.off > let_go && !on_string_of(strum, note)) item.sounding.push_back(note);
        }
        next += strum.notes.size();
        ringing.add(strum.notes);
        for (const std::size_t i : newest.between(next, settled)) {
            if (!on_string_of(strum, notes[i])) item.sounding.push_back(notes[i]);
        }
        item.struck = pitch_classes_of(strum.notes);
        item.strum = std::move(strum);
        item.pitch_classes = pitch_classes_of(item.sounding);
        strums.push_back(std::move(item));
    }
    link_voiced(strums);
    return strums;
}

void link_voiced(std::vector<SoundingStrum>& strums) {
    std::optional<std::size_t> before;
    for (std::size_t s = 0; s < strums.size(); ++s) {
        auto& strum = strums[s];
        strum.voiced_before = before;
        strum.moves_grip = !before || brings_new_note(strum.strum, strums[*before].sounding);
        strum.brings_tone = !before || (strum.struck & ~strums[*before].pitch_classes).any();
        if (!strum.is_voiced()) continue;
        const bool again = before && strums[*before].pitch_classes == strum.pitch_classes;
        strum.first_of_grip = again ? strums[*before].first_of_grip : s;
        before = s;
    }
    std::size_t after = strums.size();  // the next voiced one
    for (std::size_t s = strums.size(); s-- > 0;) {
        auto& strum = strums[s];
        const bool again =
            after < strums.size() && strums[after].pitch_classes == strum.pitch_classes;
        strum.next_grip = again ? strums[after].next_grip : after;
        if (strum.is_voiced()) after = s;
    }
}

std::vector<Note> ringing_at(const std::vector<Note>& notes, Seconds t, Seconds before) {
    const auto end = std::lower_bound(notes.begin(), notes.end(), std::min(before, t),
                                      [](const Note& note, Seconds at) { return note.on < at; });
    std::vector<Note> ringing;
    for (auto it = end; it != notes.begin();) {
        --it;
        if (t - it->on > longest_ring) break;
        if (it->off > t) ringing.push_back(*it);
    }
    return ringing;
}

harmony::PitchClasses pitch_classes_of(const std::vector<Note>& notes) {
    harmony::PitchClasses set;
    for (const Note& note : notes) set.set(static_cast<std::size_t>(note.note.pitch_class()));
    return set;
}

}  // namespace compline::assess
