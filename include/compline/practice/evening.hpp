#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/practice/ladder.hpp>
#include <compline/practice/rest.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/practice/session.hpp>
#include <compline/practice/take.hpp>
#include <compline/roadmap/road_map.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace compline::practice {

// An evening: what a player may ask for while the band plays, and where everything stands. Whoever
// draws it, and whoever asks (keys, a pedal, a page), knows this and nothing of one another. Time,
// what was heard and what is asked come in; what is to be done goes out. No clock is read here and
// no device opened, so that a whole evening passes in a test in a moment.

enum class Command {
    start_over,    ///< all as it was asked for, in a take of its own
    from_the_top,  ///< the tune from its beginning, in the tempo and with the players of now
    pause,         ///< from the next bar on nobody plays
    go_on,         ///< a bar is counted in, and the row that was being played begins again; in a
                   ///< part that waits for its cue: what follows it comes next
    slower,        ///< by 4 %, from the next bar on
    faster,
    loop_here,   ///< the four bars around, over and over; in a row's first bar the row just played
    leave_loop,  ///< at the loop's end on into the tune
    drums_off,
    drums_on,
    bass_off,
    bass_on,
    stop,
};

/// Why a command changed nothing.
enum class Refusal {
    slowest,      ///< no slower tempo can be played
    fastest,      ///< no faster one
    no_drums,     ///< they were not asked to play
    no_bass,      ///< nor was it
    not_looping,  ///< there is no loop to leave
    ending,       ///< the music is over, or nearly
};

/// What is judged while the music goes on.
enum class JudgedMeanwhile {
    nothing,        ///< nobody listens
    times_through,  ///< each when it is over
    every_change,   ///< as soon as its verdict stands
};

/// What is to be said once, as it comes.
enum class Remark {
    off_the_ladder,     ///< the loop was left, and the ladder with it
    rest_from_loop,     ///< this loop has gone on for long: the fretting hand is to rest
    rest_from_evening,  ///< the evening has
};

/// Where the evening stands.
struct State {
    explicit State(roadmap::RoadMap played) : map(std::move(played)) {}

    roadmap::RoadMap map;  ///< what is played, as far as it is decided
    time::Seconds now;     ///< in the tune; the count-in is negative
    roadmap::PlayedPlace place;
    time::Bpm tempo{120};  ///< that was decided last; it may count from the next bar on
    /// Who plays, and would if no silence were asked for, as was decided last.
    bool drums = true;
    bool bass = true;
    bool paused = false;                   ///< asked for, or there already
    std::optional<chart::Passage> rubato;  ///< it is paused because these bars are out of time
    bool until_cue = false;                ///< what is played comes again until the cue
    std::optional<chart::Passage> loop;    ///< that is played, or comes next
    int take = 1;                          ///< number of the take that is being played
    int times_over = 0;                    ///< times through of it that are over
    std::vector<assess::Change> verdicts;  ///< of this take, in order: those that stand
    std::optional<Report> lately;          ///< the last times through, judged as far as they go
    /// Which channel is which string, once enough was played to tell; in it none: one for all.
    std::optional<std::optional<listen::Strings>> strings;
    std::vector<roadmap::LadderStep> ladder;  ///< of this take: a time through each
    std::vector<Remark> remarks;              ///< of this take, in order
    std::optional<Refusal> refused;           ///< of the last command
    bool over = false;                        ///< all is played, or the player has stopped
};

/// What is to be done now, in this order.
struct Orders {
    /// A take is over, and another begins (see Evening::opening()): the band starts over.
    std::optional<Take> finished;
    std::vector<TimedDecision> decided;  ///< to be kept in the take
    /// The band follows the map of the state from this bar on; none: as before.
    std::optional<std::int64_t> follow_from;
    bool stop = false;
};

enum class Reminders { off, on };

class Evening {
  public:
    /// A change counts from the first bar line on that is so far ahead.
    static constexpr time::Seconds notice{0.25};
    static constexpr double step = 0.04;  ///< of the tempo; on a ladder it is a rung

    /// opening: what the take says of itself at its beginning; its `asked` are the map's. Where
    /// they ask for a ladder, its moves are decided here: a time through is counted a beat before
    /// it ends (half a second at least), by what is judged by then.
    Evening(roadmap::RoadMap map, TakeInfo opening, ScoreRequest rules, JudgedMeanwhile judged,
            Reminders reminders = Reminders::on);

    /// `now` never goes back, but in a new take, which begins with its count-in.
    Orders advance(time::Seconds now, const Played& news, std::span<const Command> commands);

    [[nodiscard]] const State& state() const { return state_; }

    /// What was asked, without a decision.
    [[nodiscard]] const roadmap::RoadMap& asked() const { return asked_; }

    /// What the take that is being played says of itself at its beginning.
    [[nodiscard]] const TakeInfo& opening() const { return opening_; }

    /// The whole take, as if it ended now.
    [[nodiscard]] Take take() const;

  private:
    /// A way that is being gone, of which the first stretch may be cut short at its front.
    struct Going {
        chart::Way way;
        int uncut = 1;  ///< the bar with which that stretch would begin

        [[nodiscard]] static Going whole(const chart::Way& way) {
            return {way, way.stretches.front().passage.from};
        }
        [[nodiscard]] Going rest(std::size_t stretch, int from_bar) const;
    };
    /// A part of the tune that is out of time, which goes on behind it.
    struct Rubato {
        int time_through = 1;
        int next_bar = 1;  ///< of the form
        bool is_last = false;
    };
    /// Where the tune was left for a loop.
    struct TuneLeft {
        Going way;
        std::size_t stretch = 0;  ///< of it, from 0
    };

    void obey(Command command, Orders& orders);
    void begin(roadmap::RoadMap map, Orders& orders);
    void from_the_top(Orders& orders);
    void change_tempo(double by, Refusal at_the_end, Orders& orders);
    void lay_out(const roadmap::WhoPlays& who, bool out, Orders& orders);
    void pause(Orders& orders);
    void go_on(Orders& orders);
    void loop_here(Orders& orders);
    void leave_loop(Orders& orders);
    void stop(Orders& orders);
    void decide(const roadmap::Decision& decision, Orders& orders);
    void keep(const roadmap::Decision& decision, Orders& orders);
    void give_cue(Orders& orders);
    void wait_in_rubato(Orders& orders);
    [[nodiscard]] bool is_in_vamp() const;
    [[nodiscard]] Going way_after_pause(const roadmap::PlayedBar& last) const;
    [[nodiscard]] std::optional<std::int64_t> next_bar() const;
    [[nodiscard]] std::optional<std::int64_t> change_bar() const;
    [[nodiscard]] std::size_t stretch_of(int time_through) const;
    void go_way(const Going& way, int time_through);
    void set_up_ladder();
    void leave_ladder();
    void move_ladder(time::Bpm tempo, std::int64_t from_bar);
    void climb(Orders& orders);
    void take_step(const roadmap::LadderStep& taken, std::int64_t from_bar, Orders& orders);
    void remind(time::Seconds passed);
    void look();
    [[nodiscard]] Take take_from(time::Seconds begin) const;
    [[nodiscard]] Report judged_so_far(int times) const;
    void judge();

    roadmap::RoadMap asked_;  ///< without any decision: what starting over begins with
    TakeInfo opening_;
    ScoreRequest rules_;
    JudgedMeanwhile judged_;
    Reminders reminders_;
    State state_;
    Played played_;
    std::vector<midi::TimedMessage> parameters_;  ///< of these, what sets the instrument
    Going way_;                                   ///< from its beginning
    int way_began_ = 1;                           ///< with this time through
    std::optional<TuneLeft> tune_;
    std::optional<chart::Way> after_cue_;  ///< of the tune; none: it waits for none any more
    std::optional<Rubato> rubato_;
    std::optional<std::int64_t> paused_from_;
    std::optional<Ladder> ladder_;  ///< none: not asked for, left, or over
    int ladder_from_ = 1;           ///< the first time through that counts
    int ladder_seen_ = 0;           ///< the last one that was looked at
    RestClock rest_;
    std::int64_t earliest_ = 1;  ///< no bar before it can be decided about
    std::int64_t judged_beat_ = 0;
    int judged_times_ = 0;
    int notes_played_ = 0;
};

}  // namespace compline::practice
