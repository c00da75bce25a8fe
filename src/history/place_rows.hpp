#pragma once

#include <compline/history/story.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace compline::history {

// A tune's rows, sorted by what one looks at. Pointers are into the TuneHistory.

using PlaceEvenings = std::vector<const PlaceEvening*>;  ///< by date

/// One by bar, beat and chords; of rows that come by date, quickly.
class PlaceNumbers {
  public:
    /// From 0 on, in the order in which they were first asked for.
    [[nodiscard]] std::size_t of(const PlaceEvening& row);
    [[nodiscard]] std::size_t count() const { return count_; }

  private:
    struct Numbered {
        const PlaceEvening* first = nullptr;
        std::size_t number = 0;
    };
    std::vector<std::vector<Numbered>> by_bar_;
    std::size_t count_ = 0;
};

/// Rows on `since` and later of which something counted, place by place in order of the form. Takes
/// as long as there are such rows.
[[nodiscard]] std::vector<PlaceEvenings> rows_by_place(const TuneHistory& tune,
                                                       const std::string& since);
/// Those of one place.
[[nodiscard]] PlaceEvenings rows_of(const TuneHistory& tune, const PlaceEvening& place,
                                    const std::string& since);

void add(ChangeSums& to, const ChangeSums& sums);
/// Of rows on a date and later.
[[nodiscard]] ChangeSums sums_of(const PlaceEvenings& rows, const std::string& since = "");
[[nodiscard]] int evenings_of(const PlaceEvenings& rows);

/// An evening's sums: of several rows together, where a place was played in several keys.
struct EveningSums {
    int day = 0;
    ChangeSums sums;
};
/// Those whose date is one.
[[nodiscard]] std::vector<EveningSums> by_evening(const PlaceEvenings& rows);
/// Of changes in time and right.
[[nodiscard]] Trend trend_of(const std::vector<EveningSums>& evenings);

/// The first evening that is lately; see story.hpp. Empty where nothing was played.
[[nodiscard]] std::string lately_from(const TuneHistory& tune);

/// Whether what is looked at is weak: by its rows lately.
[[nodiscard]] bool is_weak(const PlaceEvenings& lately);

/// Which of these are weak, the costliest first; of equal ones in the order in which they come.
[[nodiscard]] std::vector<std::size_t> weakest_first(const std::vector<PlaceEvenings>& lately);

/// By date, those of one date in the order in which they come.
void sort_by_date(PlaceEvenings& rows);

/// `lately`: where that begins.
[[nodiscard]] PlaceStory place_story(const PlaceEvenings& rows, const std::string& lately);

}  // namespace compline::history
