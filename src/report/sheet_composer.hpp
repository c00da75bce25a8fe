#pragma once

#include "sheet.hpp"

#include <set>
#include <string>
#include <vector>

namespace compline::report {

/// What is given up for one page.
struct Concessions {
    bool tails = false;  ///< one or two bars more stay in a row of four
    bool fold = false;   ///< a section that comes again is named
    bool split = false;  ///< rows that are too full are halved
};

/// Puts the bars of a plan into rows, by the scale that the sheet has.
class RowComposer {
  public:
    /// Fills the sheet's bars. All three outlive it.
    RowComposer(const chart::Form& form, const guitar::VoicingPlan& plan, Sheet& sheet);

    /// The sheet's bars anew, these sections written out as often as they come.
    void write(const std::set<std::string>& written_out);
    /// False where rows are too full, and may not be halved.
    [[nodiscard]] bool compose(Concessions made);
    [[nodiscard]] const std::vector<SheetRow>& rows() const { return rows_; }
    /// A section comes again as it was.
    [[nodiscard]] bool has_repeats() const;

  private:
    /// Words in place of all parts in these bars, where each of them was drawn already.
    bool add_references(chart::Passage bars);
    [[nodiscard]] SheetRow reference(const SectionPart& part) const;
    /// "bars 1–8", "bars 1–6, 9–10": where these bars are drawn.
    [[nodiscard]] std::string drawn_at(chart::Passage bars) const;
    /// What the drawn part's first diagram does not show of this one.
    [[nodiscard]] std::string start_words(const SectionPart& part) const;
    void add_section(std::size_t first, std::size_t end, bool tails);
    /// A row ends after four bars and before a second ending. `tails`: six, where else one or two
    /// would have a row to themselves.
    [[nodiscard]] std::size_t bars_of_row(std::size_t section, std::size_t from, std::size_t end,
                                          bool tails) const;
    [[nodiscard]] std::vector<BarAsWritten>::const_iterator at(std::size_t bar) const;
    /// Four bars that do not fit stay together, in halves: music goes by fours.
    void add_rows(std::size_t first, std::size_t count);
    void finish(SheetRow& row) const;

    const chart::Form& form_;
    const guitar::VoicingPlan& plan_;
    Sheet& sheet_;
    std::vector<SectionPart> parts_;
    std::vector<BarAsWritten> written_;
    std::vector<SheetRow> rows_;
    bool was_split_ = false;
};

}  // namespace compline::report
