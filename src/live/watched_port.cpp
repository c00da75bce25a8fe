#include <compline/live/watched_port.hpp>

namespace compline::live {

namespace {

constexpr time::Seconds between_questions{0.25};

}  // namespace

std::optional<WatchedPort::News> WatchedPort::look(time::Instant moment,
                                                   std::optional<time::Instant> last_called) {
    if (!port_.source) return std::nullopt;
    if (suspected_ && !out_ && last_called && *last_called > *suspected_) {
        out_ = true;
        return News{*suspected_, true};
    }
    if (moment - asked_ < between_questions) return std::nullopt;
    asked_ = moment;
    const bool is_well = port_.source->trouble().empty();
    if (!is_well) {
        if (!suspected_) suspected_ = moment;
        return std::nullopt;
    }
    suspected_.reset();
    if (!out_) return std::nullopt;
    out_ = false;
    return News{moment, false};
}

}  // namespace compline::live
