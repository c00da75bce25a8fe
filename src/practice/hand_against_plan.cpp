#include "in_form.hpp"

#include <compline/guitar/likely_fingers.hpp>
#include <compline/guitar/near_grips.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/practice/hand_against_plan.hpp>
#include <compline/practice/report.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <map>
#include <utility>

namespace compline::practice {

namespace {

using assess::Change;
using assess::Verdict;
using guitar::Act;
using guitar::Grip;

/// A change with the grip it landed in, where there is one to go by.
struct Held {
    const Change* change = nullptr;
    const guitar::PlannedVoicing* planned = nullptr;
    std::optional<Grip> grip;
};

bool is_held(const Change& change) {
    return change.verdict == Verdict::held && change.tones == assess::Tones::right;
}

bool was_struck(const Change& change) {
    return change.verdict != Verdict::laid_out && change.verdict != Verdict::missed &&
           change.verdict != Verdict::astray;
}

/// What stands against a change, counted; none: it has a grip.
int* reason(const Change& change, const guitar::PlannedVoicing* planned, PassedOver& passed) {
    if (change.uncertain) return &passed.uncertain;
    if (!was_struck(change)) return &passed.not_struck;
    if (change.tones != assess::Tones::right) return &passed.wrong;
    return planned == nullptr ? &passed.no_plan : nullptr;
}

/// All changes in order; a grip where there is one.
std::vector<Held> grips_held(const Report& report, const guitar::VoicingPlan& plan,
                             PassedOver& passed) {
    std::vector<Held> all;
    std::vector<std::optional<guitar::Shape>> shapes;
    std::vector<std::size_t> shape_of;  // a held chord has that of the change before
    for (const auto& change : report.assessment.changes) {
        const auto* planned = plan.at(in_form(report.map.form(), change));
        auto* against = reason(change, planned, passed);
        if (against != nullptr) ++*against;
        if (shapes.empty() || against != nullptr || !is_held(change)) {
            shapes.push_back(against == nullptr ? change.grip : std::nullopt);
        }
        shape_of.push_back(shapes.size() - 1);
        all.push_back({&change, against == nullptr ? planned : nullptr, std::nullopt});
    }
    const auto grips = guitar::likely_fingers(plan.fretboard, shapes);
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].planned == nullptr) continue;
        all[i].grip = grips[shape_of[i]];
        // Held from a chord of which nothing is known: neither is this one's grip.
        const bool heard = all[i].change->grip.has_value();
        if (!all[i].grip) ++(heard ? passed.no_hand : passed.not_struck);
    }
    return all;
}

/// All moves into one change of the form.
struct AtPlace {
    struct WayTaken {
        const Held* from;
        const Held* to;
        int times = 0;
    };
    std::vector<WayTaken> ways;  ///< each once, in the order of the first time
    HandMove sums;
};

/// Adds moves up, place by place.
class HandSums {
  public:
    HandSums(const guitar::Fretboard& fretboard, const chart::Form& form, guitar::NearGrips* near)
        : fretboard_(fretboard), form_(form), near_(near) {}

    void add(const Held& from, const Held& to) {
        auto& place = places_[in_form(form_, *to.change)];
        const auto move = guitar::move_between(fretboard_, *from.grip, *to.grip);
        const auto plan = guitar::move_between(fretboard_, from.planned->grip, to.planned->grip);
        auto& sums = place.sums;
        ++sums.of;
        sums.frets += move.travel();
        sums.plan_frets += plan.travel();
        sums.guided += move.is_guided() ? 1 : 0;
        sums.plan_guided += plan.is_guided() ? 1 : 0;
        const auto known = std::find_if(place.ways.begin(), place.ways.end(), [&](const auto& way) {
            return way.from->grip == from.grip && way.to->grip == to.grip &&
                   way.from->planned == from.planned;
        });
        if (known == place.ways.end()) {
            place.ways.push_back({&from, &to, 1});
        } else {
            ++known->times;
        }
    }

    std::vector<HandMove> moves() {
        std::vector<HandMove> moves;
        for (const auto& [at, place] : places_) moves.push_back(usual(at, place));
        return moves;
    }

  private:
    [[nodiscard]] HandMove usual(time::Ticks at, const AtPlace& place) {
        const auto way =
            std::max_element(place.ways.begin(), place.ways.end(),
                             [](const auto& a, const auto& b) { return a.times < b.times; });
        auto move = place.sums;
        for (auto* sum : {&move.frets, &move.plan_frets, &move.guided, &move.plan_guided}) {
            *sum /= move.of;
        }
        move.bar = way->to->change->bar;
        move.beat = way->to->change->beat;
        move.from = way->from->change->to;
        move.to = way->to->change->to;
        move.times = way->times;
        move.held_before = *way->from->grip;
        move.held = *way->to->grip;
        move.move = guitar::move_between(fretboard_, move.held_before, move.held);
        move.planned_before = way->from->planned->grip;
        move.planned = way->to->planned->grip;
        move.plan_move = guitar::move_between(fretboard_, move.planned_before, move.planned);
        move.nearer = nearer(at, move);
        return move;
    }

    [[nodiscard]] std::optional<NearerGrip> nearer(time::Ticks at, const HandMove& taken) {
        if (near_ == nullptr || taken.move.travel() == 0) return std::nullopt;
        const auto grip = near_->nearest(at, taken.held_before, taken.held);
        if (!grip) return std::nullopt;
        NearerGrip nearer{*grip, guitar::move_between(fretboard_, taken.held_before, *grip), {}};
        if (nearer.move.travel() >= taken.move.travel()) return std::nullopt;
        for (const auto& finger : nearer.move.fingers) {
            if (guides(finger) && lifted(finger, taken.move)) nearer.guides.push_back(finger);
        }
        return nearer;
    }

    static bool guides(const guitar::FingerMove& finger) {
        return finger.act == Act::stays || finger.act == Act::slides;
    }
    static bool lifted(const guitar::FingerMove& guide, const guitar::Move& taken) {
        return std::none_of(taken.fingers.begin(), taken.fingers.end(), [&](const auto& finger) {
            return finger.finger == guide.finger && guides(finger);
        });
    }

    const guitar::Fretboard& fretboard_;
    const chart::Form& form_;
    guitar::NearGrips* near_;
    std::map<time::Ticks, AtPlace> places_;
};

HandUnknown why_unknown(const Report& report) {
    if (report.heard.heard_by == listen::HeardBy::sound) return HandUnknown::by_sound;
    return report.strings ? HandUnknown::no : HandUnknown::one_channel;
}

}  // namespace

std::vector<HandMove> HandAgainstPlan::furthest() const {
    std::vector<HandMove> far;
    std::copy_if(moves.begin(), moves.end(), std::back_inserter(far),
                 [](const HandMove& move) { return move.beyond() > 0; });
    std::stable_sort(far.begin(), far.end(),
                     [](const HandMove& a, const HandMove& b) { return a.beyond() > b.beyond(); });
    return far;
}

HandAgainstPlan hand_against_plan(const Report& report, const guitar::VoicingPlan& plan,
                                  guitar::NearGrips* near) {
    HandAgainstPlan hand;
    hand.fretboard = plan.fretboard;
    hand.unknown = why_unknown(report);
    if (hand.unknown != HandUnknown::no) return hand;
    hand.changes = static_cast<int>(report.assessment.changes.size());
    const auto held = grips_held(report, plan, hand.passed);
    HandSums sums(plan.fretboard, report.map.form(), near);
    for (std::size_t i = 1; i < held.size(); ++i) {
        if (held[i - 1].grip && held[i].grip) sums.add(held[i - 1], held[i]);
    }
    hand.moves = sums.moves();
    for (const auto& move : hand.moves) {
        hand.hand.frets += move.frets;
        hand.hand.guided += move.guided;
        hand.plan.frets += move.plan_frets;
        hand.plan.guided += move.plan_guided;
    }
    return hand;
}

}  // namespace compline::practice
