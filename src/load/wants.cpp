#include "load/wants.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "load/want_row.h"

namespace aftercrop::load {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using catalogue::Crop;
using diagnostic::Diagnostics;
using garden::Want;
using garden::WantUnit;

constexpr std::size_t kMostWants = 5000;
// What counts as a salad that is wanted in small repeats: our choice.
constexpr double kSaladDays = 65.0;
constexpr int kSaladSuccessionWeeks = 3;
constexpr double kQuickRootDays = 40.0;

/// Typical area of a whole bed, or of a section.
double typical_area(const garden::Garden& garden, bool whole) {
  double sum = 0.0;
  double count = 0.0;
  for (const garden::Bed& bed : garden.beds) {
    sum += bed.area.value();
    count += whole ? 1.0 / bed.sections : 1.0;
  }
  return count > 0.0 ? sum / count : 0.0;
}

struct Amount {
  double value = 0.0;
  WantUnit unit = WantUnit::Kilograms;
};

Amount amount_of(const Measure& measure, const garden::Garden& garden) {
  switch (measure.dimension) {
    case Dimension::Plants:
      return {measure.value, WantUnit::Plants};
    case Dimension::Stems:
      return {measure.value, WantUnit::Stems};
    case Dimension::Area:
      return {measure.value, WantUnit::SquareMetres};
    case Dimension::Beds:
      return {measure.value * typical_area(garden, true), WantUnit::SquareMetres};
    case Dimension::Sections:
      return {measure.value * typical_area(garden, false), WantUnit::SquareMetres};
    default:
      break;
  }
  return {measure.value, WantUnit::Kilograms};
}

/// What the crop gives on an area, in the unit it is usually counted in.
Amount share_of(const Crop& crop, double area_m2) {
  for (const WantUnit unit : {WantUnit::Kilograms, WantUnit::Stems}) {
    const double yield = garden::yield_per_m2(crop, unit);
    if (yield > 0.0) return {yield * area_m2, unit};
  }
  return {area_m2, WantUnit::SquareMetres};
}

bool is_salad(const Crop& crop) {
  if (crop.is_cover() || !crop.succession_weeks) return false;
  const bool often = *crop.succession_weeks <= kSaladSuccessionWeeks;
  const double days = (crop.days_min + crop.days_max) / 2.0;
  return often && ((crop.edible_part == "leaf" && days <= kSaladDays) ||
                   (crop.edible_part == "root" && days <= kQuickRootDays));
}

/// Gathers the wants of all lines.
class Wants {
 public:
  explicit Wants(const WantContext& context) : context_(&context) {
    for (const garden::Bed& bed : context.garden->beds) land_m2_ += bed.area.value();
  }

  void add(const WantRow& row, std::size_t lines, Diagnostics& out) {
    ++series_;
    const Crop& crop = context_->lookup->catalogue().crop(row.crop);
    if (crop.is_cover()) {
      out.error("want-cover", fmt::format("{} is a cover: nothing of it is picked", crop.name),
                row.source,
                "take it out: covers are sown where they pay; to have it in a certain bed, write "
                "`keep: [{bed: ..., crop: ..., from: ..., to: ...}]`");
      return;
    }
    const std::vector<WeekSpan> windows = windows_of(row, *context_, out);
    if (!row.amount) {
      add_share(row, crop, windows, land_m2_ / static_cast<double>(lines), out);
      return;
    }
    const Amount amount = amount_of(*row.amount, *context_->garden);
    if (garden::yield_per_m2(crop, amount.unit) <= 0.0) {
      out.error("want-unit", fmt::format("{} is not counted in {}", crop.id, name(amount.unit)),
                row.source, "want it in plants, m2 or beds");
      return;
    }
    for (const WeekSpan& window : windows) {
      repeat(row, amount, window, row.every_weeks.value_or(window.length().count()), out);
    }
  }

  [[nodiscard]] std::vector<Want> take() { return std::move(wants_); }
  [[nodiscard]] int shares() const { return shares_; }

 private:
  /// One want for each `every` weeks of the window; a shorter last one takes its part.
  void repeat(const WantRow& row, Amount amount, WeekSpan window, int every, Diagnostics& out) {
    for (Week start = window.first; start < window.past; start = start + Weeks(every)) {
      const WeekSpan part{start, std::min(start + Weeks(every), window.past)};
      const double share = static_cast<double>(part.length().count()) / every;
      put(row, {amount.value * share, amount.unit}, part, out);
    }
  }

  /// The area's yield spread over the window in pieces of `every` weeks.
  void spread(const WantRow& row, const Crop& crop, WeekSpan window, int every, double area_m2,
              Diagnostics& out) {
    const double share = static_cast<double>(every) / window.length().count();
    repeat(row, share_of(crop, area_m2 * share), window, every, out);
  }

  void put(const WantRow& row, Amount amount, WeekSpan window, Diagnostics& out) {
    if (wants_.size() >= kMostWants) {
      if (!full_) {
        out.error("too-many-wants", fmt::format("more than {} wants, repeats included", kMostWants),
                  row.source, "use longer intervals in `every:`");
      }
      full_ = true;
      return;
    }
    Want want;
    want.crop = row.crop;
    want.amount = amount.value;
    want.unit = amount.unit;
    want.window = window;
    want.weight = row.weight;
    want.series = series_;
    want.source = row.source;
    wants_.push_back(want);
  }

  void add_share(const WantRow& row, const Crop& crop, const std::vector<WeekSpan>& windows,
                 double area_m2, Diagnostics& out) {
    ++shares_;
    for (const WeekSpan& window : windows) {
      if (row.every_weeks) {
        spread(row, crop, window, *row.every_weeks, area_m2, out);
      } else if (is_salad(crop)) {
        add_salad(row, crop, window, area_m2, out);
      } else {
        put(row, share_of(crop, area_m2), window, out);
      }
    }
  }

  void add_salad(const WantRow& row, const Crop& crop, WeekSpan window, double area_m2,
                 Diagnostics& out) {
    const WeekSpan weeks = row.harvest ? window : fresh_weeks(window, context_->garden->site);
    const int by_time = weeks.length().count() / std::max(2, *crop.succession_weeks);
    const int by_space = static_cast<int>(area_m2 / std::max(0.1, crop.smallest_stand_m2));
    const int repeats = std::max(1, std::min(by_time, by_space));
    const int every = (weeks.length().count() + repeats - 1) / repeats;
    spread(row, crop, weeks, every, area_m2, out);
  }

  const WantContext* context_;
  double land_m2_ = 0.0;
  int series_ = 0;
  int shares_ = 0;
  bool full_ = false;
  std::vector<Want> wants_;
};

}  // namespace

std::vector<Want> read_wants(const Node& node, const WantContext& context, Diagnostics& out) {
  const std::vector<const Node*> items = read_list(node, "wants", out);
  Wants wants(context);
  bool repeats = false;
  for (const Node* item : items) {
    const auto row = read_want_row(*item, *context.lookup, out);
    if (!row) continue;
    const bool dated = row->harvest && std::holds_alternative<calendar::Date>(row->harvest->first);
    repeats = repeats || (!dated && !row->each_year);
    wants.add(*row, items.size(), out);
  }
  if (wants.shares() > 0) {
    out.note("want-share",
             fmt::format("{} without an amount: {} what an equal share of the land typically gives",
                         wants.shares() == 1 ? "1 want" : fmt::format("{} wants", wants.shares()),
                         wants.shares() == 1 ? "it is" : "each is"),
             node.source, "add `amount:` for as much as you need");
  }
  if (repeats && context.seasons->years.size() > 1) {
    out.note("want-each-year", "wants without years are wanted each year", node.source,
             "write `years: first`, or dates with a year, for once");
  }
  return wants.take();
}

}  // namespace aftercrop::load
