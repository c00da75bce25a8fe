#include "front.hpp"

#include <algorithm>
#include <cstdlib>
#include <utility>

namespace compline::guitar {

namespace {

constexpr int scale = FingerTable::scale;
constexpr Cost spare_bits = scale - 1;

// The costs that are the same for all searches, scaled.
constexpr std::size_t masks = std::size_t{1} << static_cast<unsigned>(most_strings);

constexpr auto string_costs = [] {
    std::array<Cost, masks> costs{};
    for (std::size_t i = 0; i < masks; ++i) {
        costs[i] = string_set_cost(static_cast<unsigned>(i)) * scale;
    }
    return costs;
}();

/// What a voice costs by how far it goes, as bytes differ.
struct VoiceCosts {
    std::array<Cost, 256> top{};
    std::array<Cost, 256> other{};
};
constexpr auto voice_costs = [] {
    VoiceCosts costs;
    for (std::size_t i = 0; i < costs.top.size(); ++i) {
        costs.top[i] = top_cost(static_cast<int>(i)) * scale;
        costs.other[i] = voice_cost(static_cast<int>(i)) * scale;
    }
    return costs;
}();

}  // namespace

Front::Front(const FingerTable& table, const Candidates& candidates,
             const std::vector<std::uint32_t>& ids, const std::vector<Known>& known, Cost limit)
    : table_(&table), candidates_(&candidates) {
    for (std::size_t i = 0; i < ids.size(); ++i) {
        if (known[i].cost < limit) add(ids[i], known[i]);
    }
    sort_siblings();
    link_forms();
}

/// The least first, so that the others need not be looked at once it is too much.
void Front::sort_siblings() {
    const auto is_less = [](const Branch& a, const Branch& b) {
        return std::pair(a.least, a.first) < std::pair(b.least, b.first);
    };
    std::sort(branches_[0].begin(), branches_[0].end(), is_less);
    for (std::size_t level = 0; level + 1 < depth; ++level) {
        auto* next = branches_[level + 1].data();
        for (const auto& parent : branches_[level]) {
            std::sort(next + parent.first, next + parent.end, is_less);
        }
    }
    for (const auto& parent : branches_[depth - 1]) {
        std::sort(leaves_.data() + parent.first, leaves_.data() + parent.end,
                  [](const Leaf& a, const Leaf& b) {
                      return std::pair(a.cost, a.id) < std::pair(b.cost, b.id);
                  });
    }
}

/// By multiplication (Fibonacci hashing: the golden ratio of 64 bits).
std::size_t Front::bucket_of(std::uint64_t form) {
    return (form * 0x9E3779B97F4A7C15U) >> (64U - bucket_bits);
}

void Front::link_forms() {
    first_of_form_.fill(none);
    next_of_form_.resize(leaves_.size());
    for (auto leaf = static_cast<std::uint32_t>(leaves_.size()); leaf-- > 0;) {
        auto& first = first_of_form_[bucket_of(leaves_[leaf].form)];
        next_of_form_[leaf] = first;
        first = leaf;
    }
}

/// Candidates come in the order of the tree, so that a branch once left is complete.
void Front::add(std::uint32_t id, const Known& known) {
    const auto& grip = candidates_->packed(id);
    const auto& place = grip.place;
    const std::array<BranchKey, depth> keys{BranchKey{static_cast<std::uint16_t>(grip.hand)},
                                            BranchKey{place[0], place[1]},
                                            BranchKey{place[2], place[3]}};
    std::size_t level = 0;
    while (!leaves_.empty() && level < depth && keys[level] == path_[level]) ++level;
    const auto size_below = [&](std::size_t l) {
        return static_cast<std::uint32_t>(l + 1 < depth ? branches_[l + 1].size() : leaves_.size());
    };
    for (; level < depth; ++level) {
        branches_[level].push_back({keys[level], size_below(level), size_below(level)});
    }
    path_ = keys;
    const Cost cost = known.cost * scale + (known.exact ? 0 : 1);
    least_ = std::min(least_, cost);
    leaves_.push_back({grip.form, id, cost, grip.place, grip.hand, grip.strings, grip.voices});
    for (level = 0; level < depth; ++level) {
        auto& branch = branches_[level].back();
        branch.end = size_below(level);
        branch.least = std::min(branch.least, cost);
    }
}

FrontSearch::FrontSearch(const Front& front, const WayIn& way_in, Direction direction)
    : front_(front), way_in_(way_in), direction_(direction) {
    if (auto* work = front.table_->work()) work->step();
    for (std::size_t i = 0; i < most_shift; ++i) {
        const int frets = static_cast<int>(i);
        guided_[i] = shift_cost(frets, way_in.haste, true) * scale;
        unguided_[i] = shift_cost(frets, way_in.haste, false) * scale - guided_[i];
    }
    for (std::size_t hand = 0; hand < most_shift; ++hand) {
        least_[hand] = never * scale;
        for (const auto& branch : front.branches_[0]) {
            const auto frets = std::abs(static_cast<int>(hand) - branch.key[0]);
            least_[hand] =
                std::min(least_[hand], branch.least + guided_[static_cast<std::size_t>(frets)]);
        }
    }
}

Known FrontSearch::find(const PackedGrip& grip, Cost limit) {
    if (limit <= 0 || front_.empty()) return {};
    grip_ = &grip;
    best_ = limit * scale;
    if (auto* work = front_.table_->work()) work->search();
    if (front_.least_ >= best_) return {};
    slide_whole_grips();
    if (least_[static_cast<std::uint8_t>(grip.hand)] < best_) look_round();
    if (best_ >= limit * scale) return {};
    return {best_ / scale, (best_ & spare_bits) == 0};
}

void FrontSearch::look_round() {
    for (std::size_t finger = 0; finger < PackedGrip::fingers; ++finger) {
        const auto place = grip_->place[finger];
        rows_[finger] = direction_ == Direction::forward ? front_.table_->to(place)
                                                         : front_.table_->from(place);
    }
    // What was best for the grip before, which is one like this, is hard to beat.
    try_leaf(found_);
    for (const auto& hand : front_.branches_[0]) {
        const auto shift = static_cast<std::size_t>(std::abs(grip_->hand - hand.key[0]));
        if (hand.least >= best_) break;
        if (hand.least + guided_[shift] >= best_) continue;
        unguided_here_ = unguided_[shift];
        climb<1>(hand, guided_[shift]);
    }
}

void FrontSearch::try_leaf(std::uint32_t leaf) {
    const auto& other = front_.leaves_[leaf];
    const auto shift = static_cast<std::size_t>(std::abs(grip_->hand - other.hand));
    Cost fingers = guided_[shift];
    for (std::size_t i = 0; i < PackedGrip::fingers; ++i) fingers += rows_[i][other.place[i]];
    try_leaf(leaf, fingers, unguided_[shift]);
}

/// `fingers`: what they cost, and the hand, if they guide it; if not, it costs `unguided` more.
void FrontSearch::try_leaf(std::uint32_t leaf, Cost fingers, Cost unguided) {
    const auto& other = front_.leaves_[leaf];
    const bool guided = (fingers & spare_bits) != 0;
    const Cost cost = (fingers & ~spare_bits) + (guided ? 0 : unguided) + other.cost +
                      string_costs[other.strings ^ grip_->strings];
    // Most are too dear before their voices are asked.
    if (cost < best_) take(leaf, cost + voices_cost(other));
}

Cost FrontSearch::voices_cost(const Front::Leaf& leaf) const {
    const auto& own = grip_->voices;
    const auto& other = leaf.voices;
    const auto apart = [&](std::size_t i) {
        return static_cast<std::size_t>(std::abs(own[i] - other[i]));
    };
    Cost cost = voice_costs.top[apart(0)];
    for (std::size_t i = 1; i < own.size(); ++i) cost += voice_costs.other[apart(i)];
    const auto differing = static_cast<unsigned>(leaf.strings ^ grip_->strings);
    cost += held_cost(way_in_.news, other, own, differing) * scale;
    if (way_in_.line != Line::free) {
        const bool forward = direction_ == Direction::forward;
        cost += line_cost(forward ? other : own, forward ? own : other, way_in_.line) * scale;
    }
    return cost;
}

void FrontSearch::take(std::uint32_t leaf, Cost cost) {
    if (cost >= best_) return;
    best_ = cost;
    found_ = leaf;
}

void FrontSearch::slide_whole_grips() {
    for (auto leaf = front_.first_of_form_[Front::bucket_of(grip_->form)]; leaf != Front::none;
         leaf = front_.next_of_form_[leaf]) {
        const auto& other = front_.leaves_[leaf];
        if (other.form != grip_->form) continue;
        const int frets = std::abs(grip_->hand - other.hand);
        take(leaf, other.cost + whole_grip_cost(frets, way_in_.haste) * scale + voices_cost(other));
    }
}

/// What guides is no cost: with it a grip known exactly would look dearer than a lower bound that
/// is as good, and the exact way would be lost.
template <std::size_t level>
void FrontSearch::climb(const Front::Branch& branch, Cost so_far) {
    if constexpr (level < Front::depth) {
        const Cost paid = so_far & ~spare_bits;
        const auto& branches = front_.branches_[level];
        const auto* lower = rows_[2 * level - 2];
        const auto* higher = rows_[2 * level - 1];
        for (auto i = branch.first; i < branch.end; ++i) {
            const auto& next = branches[i];
            if (paid + next.least >= best_) break;
            const Cost cost = so_far + lower[next.key[0]] + higher[next.key[1]];
            if ((cost & ~spare_bits) + next.least < best_) climb<level + 1>(next, cost);
        }
    } else {
        for (auto i = branch.first; i < branch.end; ++i) {
            const auto thumb = front_.leaves_[i].place[PackedGrip::thumb];
            try_leaf(i, so_far + rows_[PackedGrip::thumb][thumb], unguided_here_);
        }
    }
}

}  // namespace compline::guitar
