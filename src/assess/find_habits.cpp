#include <compline/assess/assessment.hpp>

namespace compline::assess {

std::vector<Habit> find_habits(const std::vector<Change>& /*changes*/,
                               const std::vector<ReadStrum>& /*strums*/) {
    return {};
}

}  // namespace compline::assess
