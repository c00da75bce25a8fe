#include <compline/report/spoken_date.hpp>
#include <compline/text/printable.hpp>

namespace compline::report {

std::string spoken_date(const std::string& made) {
    constexpr std::size_t to_the_minute = 16;
    auto date = text::printable(made.substr(0, to_the_minute));
    if (const auto t = date.find('T'); t != std::string::npos) date[t] = ' ';
    return date;
}

}  // namespace compline::report
