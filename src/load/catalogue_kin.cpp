#include <algorithm>

#include "load/catalogue_tables.h"

// What is of one kind shares its troubles: a crop like another, a form of a crop, a mixture.
namespace aftercrop::load {
namespace {

using catalogue::Catalogue;
using catalogue::Crop;
using catalogue::CropId;
using catalogue::Host;
using catalogue::Pathogen;

void join(std::vector<CropId>& crops, CropId fresh, CropId kin) {
  const auto has = [&](CropId id) { return std::find(crops.begin(), crops.end(), id); };
  if (has(kin) != crops.end() && has(fresh) == crops.end()) crops.push_back(fresh);
}

/// Hosts stand in order of their crops.
void add_host(Pathogen& pathogen, const Host& host) {
  const auto place =
      std::lower_bound(pathogen.hosts.begin(), pathogen.hosts.end(), host.crop,
                       [](const Host& one, CropId wanted) { return one.crop < wanted; });
  pathogen.hosts.insert(place, host);
}

void join_hosts(CropId fresh, CropId kin, Catalogue& rows) {
  for (Pathogen& pathogen : rows.pathogens) {
    const Host* host = pathogen.host(kin);
    if (host == nullptr || pathogen.host(fresh) != nullptr) continue;
    Host copy = *host;
    copy.crop = fresh;
    add_host(pathogen, copy);
  }
  for (auto& pair : rows.host_returns) {
    join(pair.crops, fresh, kin);
    join(pair.after, fresh, kin);
  }
}

}  // namespace

void join_like(CropId fresh, CropId like, Catalogue& rows) {
  join_hosts(fresh, like, rows);
  for (Pathogen& pathogen : rows.pathogens) {
    for (auto& row : pathogen.biofumigation) join(row.plants, fresh, like);
  }
  for (auto& partner : rows.partners) {
    join(partner.partner_crops, fresh, like);
    join(partner.partner_for, fresh, like);
  }
}

void join_family(CropId fresh, Catalogue& rows) {
  for (Pathogen& pathogen : rows.pathogens) {
    bool any = false;
    bool all = true;
    for (std::size_t i = 0; i < rows.crops.size(); ++i) {
      if (CropId(i) == fresh || rows.crops[i].family != rows.crop(fresh).family) continue;
      any = true;
      all = all && pathogen.host(CropId(i)) != nullptr;
    }
    if (any && all && pathogen.host(fresh) == nullptr) {
      Host host;
      host.crop = fresh;
      add_host(pathogen, host);
    }
  }
}

void join_kin(Catalogue& rows) {
  for (std::size_t i = 0; i < rows.crops.size(); ++i) {
    const Crop& crop = rows.crops[i];
    if (crop.form_of.known()) join_like(CropId(i), crop.form_of, rows);
    for (const catalogue::MixturePart& part : crop.mixture) join_hosts(CropId(i), part.crop, rows);
  }
}

}  // namespace aftercrop::load
