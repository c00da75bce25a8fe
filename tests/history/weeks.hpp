#pragma once

#include <compline/history/story.hpp>

#include <string>
#include <utility>
#include <vector>

namespace compline::tests {

/// So many changes of a place on an evening, and how many of them were in time and right. What was
/// not was missed.
struct Went {
    int bar = 1;
    int of = 4;
    int right = 4;
    std::string from = "Dm7";
    std::string to = "G7";
    std::string key = {};
};

inline history::ChangeSums sums(int of, int right) {
    return {of, right, right, right, static_cast<double>(of - right)};
}

/// A tune, evening by evening: a list of places each. Day 0 is 2026-11-02, a Monday.
class Weeks {
  public:
    explicit Weeks(const std::string& title = "Lantern Street", int bars = 32) {
        for (const char letter : title) it.tune.id = it.tune.id * 31 % 65521 + letter;
        it.tune.title = title;
        it.tune.chart_text = "title: T\nkey: F\ntempo: 120\nsections: {A: F6 | Gm7 | C7 | F6}\n";
        it.bars = bars;
        it.chart_bpm = 120;
    }

    static std::string day(int number) {
        return history::date_of(history::days_of("2026-11-02").value() + number);
    }

    history::TuneEvening& on(int number, const std::vector<Went>& places) {
        history::TuneEvening evening;
        evening.date = day(number);
        evening.seconds = 600;
        evening.takes = 2;
        evening.usual_bpm = 120;
        for (const auto& went : places) {
            it.places.push_back(row(evening.date, went));
            evening.sums.of += went.of;
            evening.sums.in_time += went.right;
            evening.sums.right += went.right;
            evening.sums.both += went.right;
            evening.sums.cost += went.of - went.right;
        }
        it.evenings.push_back(evening);
        return it.evenings.back();
    }

    /// The whole tune, clean at a tempo; 0: not clean.
    history::TuneEvening& whole(int number, double clean_bpm,
                                const std::vector<Went>& places = {}) {
        auto& evening = on(number, places);
        evening.whole_times = 2;
        if (clean_bpm > 0) evening.clean_bpm = clean_bpm;
        return evening;
    }

    history::TuneHistory it;

  private:
    static history::PlaceEvening row(const std::string& date, const Went& went) {
        history::PlaceEvening row;
        row.date = date;
        row.bar = went.bar;
        row.section = "A";
        row.from = went.from;
        row.to = went.to;
        row.key = went.key;
        row.sums = sums(went.of, went.right);
        row.missed = went.of - went.right;
        return row;
    }
};

}  // namespace compline::tests
