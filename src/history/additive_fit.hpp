#pragma once

#include <cstddef>
#include <vector>

namespace compline::history {

/// So many changes of a place on an evening, and how many of them were in time.
struct FitCell {
    std::size_t evening = 0;
    std::size_t place = 0;
    double of = 0;
    double in_time = 0;
};

/// Share = the evening's + the place's, by least squares weighted by counts; of the places each is
/// held to 0 by one change more. The evenings are eliminated, what remains has a row a place: so
/// it takes as long as there are pairs of places on an evening. Cells: by evening, no count of 0,
/// no evening without one.
class AdditiveFit {
  public:
    AdditiveFit(std::vector<FitCell> cells, std::size_t evenings, std::size_t places);

    /// Of each evening, had it played all places of its group as often as all its evenings did.
    [[nodiscard]] std::vector<double> evening_values() const;

  private:
    struct FitEvening {
        double of = 0;
        double in_time = 0;
        std::size_t first_place = 0;
    };
    void group_places();
    [[nodiscard]] std::size_t group_of(std::size_t place) const;
    void fit_places();

    std::vector<FitCell> cells_;
    std::vector<FitEvening> evenings_;
    std::vector<double> counts_;        ///< by place
    std::vector<std::size_t> leaders_;  ///< by place: one nearer to the leader of its group
    std::vector<double> places_;        ///< by place: what it adds to an evening's share
};

}  // namespace compline::history
