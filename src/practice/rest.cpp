#include <compline/practice/rest.hpp>

namespace compline::practice {

using time::Seconds;

RestClock::Rests RestClock::pass(Seconds time, bool music, std::optional<chart::Passage> loop) {
    in_evening_ += time;
    if (!music) return {};
    if (loop != loop_) in_loop_ = Seconds(0);
    loop_ = loop;
    in_loop_ += loop ? time : Seconds(0);
    Rests due;
    due.from_loop = in_loop_ >= of_one_loop;
    if (due.from_loop) in_loop_ = Seconds(0);
    due.from_evening = in_evening_ >= of_an_evening && !said_of_evening_;
    said_of_evening_ = said_of_evening_ || due.from_evening;
    return due;
}

}  // namespace compline::practice
