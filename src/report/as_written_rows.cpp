#include "as_written_rows.hpp"

#include <algorithm>

namespace compline::report {

namespace {

using chart::Form;
using chart::Passage;

/// Playings in a row of one section, as the form has them.
std::vector<std::vector<Passage>> rows_of(const Form& form) {
    std::vector<std::vector<Passage>> rows;
    for (const auto& bar : form.bars) {
        if (bar.bar_in_section > 1) {
            rows.back().back().to = bar.number;
            continue;
        }
        const bool again = bar.number > 1 && bar.number != form.coda_from &&
                           form.bar(bar.number - 1).section == bar.section;
        if (!again) rows.emplace_back();
        rows.back().push_back({bar.number, bar.number});
    }
    return rows;
}

/// A playing's bars before its ending.
Passage body_of(const Form& form, Passage playing) {
    while (playing.to >= playing.from && form.bar(playing.to).ending) --playing.to;
    return playing;
}

class RowSplitter {
  public:
    RowSplitter(const Form& form, const PlayedAlike& alike) : form_(form), alike_(alike) {}

    /// A playing joins those before it where it is played as they are.
    [[nodiscard]] std::vector<WrittenRow> split(const std::vector<Passage>& playings) const {
        std::vector<WrittenRow> rows;
        for (std::size_t time = 0; time < playings.size(); ++time) {
            if (rows.empty() || !joins(rows.back(), playings[time])) {
                rows.push_back({{}, static_cast<int>(time) + 1, playings.size() > 1});
            }
            rows.back().playings.push_back(playings[time]);
        }
        return rows;
    }

  private:
    [[nodiscard]] bool joins(const WrittenRow& row, Passage playing) const {
        const auto body = body_of(form_, playing);
        const auto first_body = body_of(form_, row.playings.front());
        if (body.bars() > 0 && !alike_(first_body, body)) return false;
        const Passage ending{body.to + 1, playing.to};
        if (ending.bars() == 0) return true;
        const auto taken =
            std::find_if(row.playings.begin(), row.playings.end(), [&](const Passage& earlier) {
                return form_.bar(earlier.to).ending == form_.bar(playing.to).ending;
            });
        return taken == row.playings.end() ||
               alike_({body_of(form_, *taken).to + 1, taken->to}, ending);
    }

    const Form& form_;
    const PlayedAlike& alike_;
};

/// What of the playings lies in the passage, each a row of its own.
std::vector<WrittenRow> cut(const std::vector<Passage>& playings, Passage passage) {
    std::vector<WrittenRow> rows;
    for (std::size_t time = 0; time < playings.size(); ++time) {
        const Passage part{std::max(playings[time].from, passage.from),
                           std::min(playings[time].to, passage.to)};
        if (part.bars() < 1) continue;
        rows.push_back({{part}, static_cast<int>(time) + 1, playings.size() > 1});
    }
    return rows;
}

}  // namespace

std::vector<WrittenRow> written_rows(const Form& form, Passage passage, const PlayedAlike& alike) {
    std::vector<WrittenRow> rows;
    for (const auto& playings : rows_of(form)) {
        const bool whole =
            playings.front().from >= passage.from && playings.back().to <= passage.to;
        const auto more = whole ? RowSplitter(form, alike).split(playings) : cut(playings, passage);
        rows.insert(rows.end(), more.begin(), more.end());
    }
    return rows;
}

}  // namespace compline::report
