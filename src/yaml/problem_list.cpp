#include <compline/yaml/problem_list.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

namespace compline::yaml {

void ProblemList::store(std::size_t offset, const std::string& what) {
    if (++count_ > most) return;
    const auto place = source_.place(offset);
    problems_.push_back({place.line, place.column, what});
}

bool ProblemList::is_silenced(std::size_t offset) const {
    return std::binary_search(silenced_.begin(), silenced_.end(), source_.line_index(offset));
}

void ProblemList::add(std::size_t offset, const std::string& what) {
    if (is_silenced(offset)) {
        ++dropped_;
    } else {
        store(offset, what);
    }
}

void ProblemList::add_and_silence_line(std::size_t offset, const std::string& what) {
    store(offset, what);
    silenced_.push_back(source_.line_index(offset));
}

void ProblemList::end_with(std::size_t offset, const std::string& what) {
    if (!silenced_.empty()) return;
    const auto place = source_.place(offset);
    last_ = Problem{place.line, place.column, what};
}

std::vector<Problem> ProblemList::in_order() const {
    auto problems = problems_;
    std::stable_sort(problems.begin(), problems.end(), [](const Problem& a, const Problem& b) {
        return std::tie(a.line, a.column) < std::tie(b.line, b.column);
    });
    const auto same = [](const Problem& a, const Problem& b) {
        return a.line == b.line && a.column == b.column && a.what == b.what;
    };
    problems.erase(std::unique(problems.begin(), problems.end(), same), problems.end());
    if (last_) problems.push_back(*last_);
    if (count_ > most) {
        problems.push_back(
            {0, 0, fmt::format("{} more problems not shown: mend these first", count_ - most)});
    }
    return problems;
}

}  // namespace compline::yaml
