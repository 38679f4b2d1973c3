#pragma once
/// The one place where GDAL's way of failing becomes ours. Internal to io.
#include <memory>
#include <string>
#include <string_view>

#include <gdal_priv.h>

#include "lodeway/result/result.hpp"

namespace lodeway::io {

/// Registers once the few drivers that are read or written here, none that follows an address or
/// the name of another file, and closes GDAL to the outside (`close_to_outside`).
void gdal_ready();

/// While it lives, what GDAL says on this thread is kept here and not printed.
class GdalTalk {
 public:
  GdalTalk();
  ~GdalTalk();
  GdalTalk(const GdalTalk&) = delete;
  GdalTalk& operator=(const GdalTalk&) = delete;

  /// Has anything failed since the start or the last `forget`?
  [[nodiscard]] bool failed() const { return failed_; }
  [[nodiscard]] const std::string& first() const { return first_; }
  void forget();
  /// "FILE: WHAT: GDAL's first reason", one line. `hidden`, a temporary name, is shown as FILE.
  [[nodiscard]] std::unexpected<Fault> fault(FaultCode code, const std::string& file,
                                             std::string_view what,
                                             const std::string& hidden = {}) const;

 private:
  static void CPL_STDCALL hear(CPLErr severity, CPLErrorNum number, const char* text);
  bool failed_ = false;
  std::string first_;  // the first failure, else the first warning
};

/// A GDAL setting for this thread, set back at the end of the scope.
class GdalSetting {
 public:
  GdalSetting(const char* key, const char* value) : key_(key) {
    CPLSetThreadLocalConfigOption(key, value);
  }
  ~GdalSetting() { CPLSetThreadLocalConfigOption(key_, nullptr); }
  GdalSetting(const GdalSetting&) = delete;
  GdalSetting& operator=(const GdalSetting&) = delete;

 private:
  const char* key_;
};

/// A dataset that is closed, and so flushed, at the end of its scope.
struct DatasetCloser {
  void operator()(GDALDataset* d) const { GDALClose(GDALDataset::ToHandle(d)); }
};
using Dataset = std::unique_ptr<GDALDataset, DatasetCloser>;

}  // namespace lodeway::io
