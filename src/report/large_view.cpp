#include "attributes.hpp"
#include "glance_words.hpp"
#include "large_drawing.hpp"
#include "shown_place.hpp"
#include "status_words.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/large_view.hpp>

#include <algorithm>
#include <utility>

namespace compline::report {

namespace {

using roadmap::PlayedPlace;
using time::Ticks;

/// A message in so many lines at most; what has no room is cut.
std::vector<std::string> in_so_many(const std::string& message, int columns, std::size_t most) {
    auto lines = in_lines(message, columns);
    if (lines.size() <= most) return lines;
    const auto rest = lines[most - 1] + " " + lines[most];
    lines.resize(most);
    lines.back() = cut_to_columns(rest, columns);
    return lines;
}

/// The newest messages that fit, the newest last; blank lines where there are fewer.
std::vector<std::string> newest(const std::deque<std::string>& messages, Window window,
                                std::size_t lines) {
    std::vector<std::string> newest;
    for (std::size_t message = messages.size(); message-- > 0;) {
        const auto parts = in_so_many(messages[message], window.columns, lines);
        if (newest.size() + parts.size() > lines) break;
        newest.insert(newest.begin(), parts.begin(), parts.end());
    }
    newest.resize(lines);
    return newest;
}

void append(std::vector<std::string>& lines, std::vector<std::string> more) {
    for (auto& line : more) lines.push_back(std::move(line));
}

/// Where nothing large has room.
std::vector<std::string> in_words(const Playing& playing, const PlayedPlace& place, Ticks position,
                                  const std::deque<std::string>& messages) {
    const auto height = static_cast<std::size_t>(std::max(1, playing.window.lines));
    std::vector<std::string> lines{cut_to_columns(glance_words(playing, place, position),
                                                  std::max(1, playing.window.columns))};
    if (height >= 2) lines.push_back(status_line(playing, place));
    if (height >= 3)
        append(lines, newest(messages, playing.window, std::min<std::size_t>(height - 2, 3)));
    return lines;
}

}  // namespace

std::vector<std::string> large_view(const ChartRows& rows, const Playing& playing, Ticks position,
                                    const std::deque<std::string>& messages) {
    const auto place = shown_place(rows, playing, position);
    const int strings = playing.voicings != nullptr ? playing.voicings->fretboard.strings() : 0;
    const auto layout = large_layout(playing.window, strings);
    if (!layout) return in_words(playing, place, position, messages);
    auto lines = large_drawing(*layout, rows, playing, place, position);
    for (int blank = 1; blank < layout->status; ++blank) lines.emplace_back();
    lines.push_back(status_line(playing, place));
    if (layout->keys > 0) lines.push_back(with(dim, keys_line(playing), playing));
    append(lines, newest(messages, playing.window, static_cast<std::size_t>(layout->messages)));
    return lines;
}

}  // namespace compline::report
