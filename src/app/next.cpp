#include "accidentals.hpp"
#include "history_file.hpp"
#include "weeks_options.hpp"

#include <fmt/format.h>

#include <memory>

namespace compline::app {

namespace {

constexpr int longest_evening = 240;

struct NextOptions {
    AsGiven player;
    std::optional<int> minutes;
    bool json = false;
};

std::vector<history::Thing> things_to_do(const NextOptions& options, const std::string& today) {
    const auto history = open_history();
    if (!history) return history::advice({}, {}, {today, options.minutes});
    const auto& player = options.player.text;
    return history::advice(history->tunes(player), history->homework(player),
                           {today, options.minutes});
}

void tell_what_is_next(const NextOptions& options) {
    const auto asked = weeks_asked(options.player);
    const auto things = reading_history([&] { return things_to_do(options, asked.today); });
    if (options.json) {
        fmt::print("{}", report::next_json(things, asked));
    } else {
        print_words(report::next_text(things, asked));
    }
}

}  // namespace

ProgramCommand next_command() {
    const auto options = std::make_shared<NextOptions>();
    return {"next",
            "What to practise today, why, and the lines to type",
            {{"--minutes", "N", "What there is time for, 5 to 240.", "as long as it takes",
              whole_number(5, longest_evening, &options->minutes)},
             player_option(options->player),
             {"--json", "", "It as JSON.", "in words", flag(&options->json)},
             accidentals_option()},
            [options] {
                tell_what_is_next(*options);
                return Status::done;
            }};
}

}  // namespace compline::app
