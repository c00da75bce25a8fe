#pragma once

#include "command.hpp"
#include "judging.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace compline::app {

// Which tunes takes were played to. A take of ours carries its chart, so takes of one tune are
// those with the same bars, in whatever key they were played.

/// A take that was looked at, not judged yet.
struct LookedAt {
    std::string path;
    bool by_sound = false;
    std::optional<chart::Passage>
        played;  ///< looked for where bars are asked for; none: it does not say
};

struct TuneOfTakes {
    std::string hash;  ///< of its chart, in the key that it is written in
    std::string title;
    chart::Form form;  ///< in that key
    std::vector<LookedAt> takes;
};

struct FoundTunes {
    std::vector<TuneOfTakes> tunes;  ///< the most played first
    Status status = Status::done;    ///< else some takes could not be read, which was said
};

/// Looks at takes by the wishes by which they are to be judged.
class TuneFinder {
  public:
    /// `options` must outlive it. Throws BadInput, chart::ChartError.
    explicit TuneFinder(const JudgingOptions& options);

    /// The chart that is given, where there is one: takes that carry another chart of its title,
    /// or none, are of its tune too.
    [[nodiscard]] const std::optional<TuneOfTakes>& given() const { return given_; }

    /// The takes of a folder. One that carries no chart needs one that is given. Throws BadInput
    /// where there is no take.
    [[nodiscard]] FoundTunes in_folder(const std::string& folder) const;
    /// A take by itself, of the tune that is given, or else its own. Throws BadInput.
    [[nodiscard]] FoundTunes of_take(const std::string& path) const;

    [[nodiscard]] practice::Report judge(const std::string& path) const {
        return judging_.judge(path);
    }
    /// Each of them that can be judged and fits the tune; of others it is said why not. Nobody can
    /// have played what a take does not have: where bars are asked for, it needs them.
    Status judge_all(const TuneOfTakes& tune,
                     const std::function<void(practice::Report)>& take_in) const;

  private:
    [[nodiscard]] TuneOfTakes look_at(const std::string& path) const;
    [[nodiscard]] bool has_bars(const TuneOfTakes& tune, const LookedAt& take) const;

    const JudgingOptions& options_;
    Judging judging_;
    std::optional<TuneOfTakes> given_;
};

}  // namespace compline::app
