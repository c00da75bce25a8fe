#include "front.hpp"

#include <algorithm>
#include <cstdlib>
#include <tuple>

namespace compline::guitar {

namespace {

constexpr int scale = FingerTable::scale;
constexpr Cost spare_bits = scale - 1;

std::size_t bit_of(std::uint64_t form) { return form % 1021; }

}  // namespace

Front::Front(const FingerTable& table, const Candidates& candidates,
             const std::vector<std::uint32_t>& ids, const std::vector<Known>& known, Cost limit)
    : table_(&table), candidates_(&candidates) {
    for (std::size_t i = 0; i < ids.size(); ++i) {
        if (known[i].cost < limit) add(ids[i], known[i]);
    }
    std::sort(forms_.begin(), forms_.end(), [](const SameForm& a, const SameForm& b) {
        return std::tie(a.form, a.leaf) < std::tie(b.form, b.leaf);
    });
}

/// Candidates come in the order of the tree, so that a branch once left is complete.
void Front::add(std::uint32_t id, const Known& known) {
    const auto& grip = candidates_->packed(id);
    const std::array<std::uint16_t, depth> keys{static_cast<std::uint16_t>(grip.hand),
                                                grip.place[0], grip.place[1], grip.place[2],
                                                grip.place[3]};
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
    forms_.push_back({grip.form, static_cast<std::uint32_t>(leaves_.size())});
    has_form_.set(bit_of(grip.form));
    leaves_.push_back({id, cost, grip.place[PackedGrip::thumb], grip.strings, grip.top});
    for (level = 0; level < depth; ++level) {
        auto& branch = branches_[level].back();
        branch.end = size_below(level);
        branch.least = std::min(branch.least, cost);
    }
}

FrontSearch::FrontSearch(const Front& front, int haste, Direction direction)
    : front_(front), haste_(haste), direction_(direction) {
    for (std::size_t i = 0; i < masks; ++i) {
        strings_[i] = string_set_cost(static_cast<unsigned>(i)) * scale;
    }
    for (std::size_t i = 0; i < notes; ++i) top_[i] = top_cost(static_cast<int>(i)) * scale;
    for (std::size_t i = 0; i < most_shift; ++i) {
        const int frets = static_cast<int>(i);
        guided_[i] = shift_cost(frets, haste, true) * scale;
        unguided_[i] = shift_cost(frets, haste, false) * scale - guided_[i];
    }
    for (std::size_t hand = 0; hand < most_shift; ++hand) {
        least_[hand] = never * scale;
        for (const auto& branch : front.branches_[0]) {
            const auto frets = std::abs(static_cast<int>(hand) - branch.key);
            least_[hand] =
                std::min(least_[hand], branch.least + guided_[static_cast<std::size_t>(frets)]);
        }
    }
}

Known FrontSearch::find(const PackedGrip& grip, Cost limit) {
    if (limit <= 0 || front_.empty()) return {};
    grip_ = &grip;
    best_ = limit * scale;
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
        const auto shift = static_cast<std::size_t>(std::abs(grip_->hand - hand.key));
        if (hand.least + guided_[shift] >= best_) continue;
        unguided_here_ = unguided_[shift];
        climb<1>(hand, guided_[shift]);
    }
}

void FrontSearch::try_leaf(std::uint32_t leaf) {
    const auto& item = front_.leaves_[leaf];
    const auto& other = front_.candidates_->packed(item.id);
    const Cost reach = direction_ == Direction::forward ? packed_reach(other, *grip_, haste_)
                                                        : packed_reach(*grip_, other, haste_);
    take(leaf, item.cost + reach * scale);
}

void FrontSearch::take(std::uint32_t leaf, Cost cost) {
    if (cost >= best_) return;
    best_ = cost;
    found_ = leaf;
}

void FrontSearch::slide_whole_grips() {
    if (!front_.has_form_[bit_of(grip_->form)]) return;
    const auto& forms = front_.forms_;
    auto same = std::lower_bound(
        forms.begin(), forms.end(), grip_->form,
        [](const Front::SameForm& one, std::uint64_t form) { return one.form < form; });
    for (; same != forms.end() && same->form == grip_->form; ++same) try_leaf(same->leaf);
}

template <std::size_t level>
void FrontSearch::climb(const Front::Branch& branch, Cost so_far) {
    if constexpr (level < Front::depth) {
        const auto& branches = front_.branches_[level];
        const auto* row = rows_[level - 1];
        for (auto i = branch.first; i < branch.end; ++i) {
            const Cost cost = so_far + row[branches[i].key];
            if (cost + branches[i].least < best_) climb<level + 1>(branches[i], cost);
        }
    } else {
        for (auto i = branch.first; i < branch.end; ++i) {
            const auto& leaf = front_.leaves_[i];
            const Cost fingers = so_far + rows_[PackedGrip::thumb][leaf.thumb];
            const bool guided = (fingers & spare_bits) != 0;
            take(i, (fingers & ~spare_bits) + (guided ? 0 : unguided_here_) + leaf.cost +
                        strings_[leaf.strings ^ grip_->strings] +
                        top_[static_cast<std::size_t>(std::abs(leaf.top - grip_->top))]);
        }
    }
}

}  // namespace compline::guitar
