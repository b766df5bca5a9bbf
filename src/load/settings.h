#pragma once

#include "aftercrop/garden/garden.h"
#include "load/lookup.h"

namespace aftercrop::load {

/// `rules:`. Errors: `unknown-rule`, `unknown-word`, `rule-setting`.
void read_rules(const Node& node, garden::Policy& policy, diagnostic::Diagnostics& out);

/// `accept:`: exceptions that stay on the record.
void read_accept(const Node& node, const Lookup& lookup, garden::Policy& policy,
                 diagnostic::Diagnostics& out);

/// `work: {hours_per_week: 14, except: [{from:, to:, hours:}]}`.
[[nodiscard]] garden::Hands read_work(const Node& node, diagnostic::Diagnostics& out);

/// `costs: {nitrogen: 6 /kg, work: 12 /h, ...}`.
[[nodiscard]] garden::Costs read_costs(const Node& node, diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
