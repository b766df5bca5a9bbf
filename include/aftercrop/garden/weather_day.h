#pragma once

#include <optional>

#include "aftercrop/calendar/date.h"

namespace aftercrop::garden {

/// One day of weather as it was measured in the open.
struct WeatherDay {
  calendar::Date date;
  double tmax_c = 0.0;
  double tmin_c = 0.0;
  std::optional<double> rain_mm;
};

}  // namespace aftercrop::garden
