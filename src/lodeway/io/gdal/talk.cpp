#include <algorithm>
#include <mutex>

#include "lodeway/io/gdal/detail/talk.hpp"

namespace lodeway::io {

void gdal_ready() {
  static std::once_flag once;
  std::call_once(once, [] {
    GDALAllRegister();
    GDALDriverManager& drivers = *GetGDALDriverManager();
    for (const char* name :
         {"HTTP", "WMS", "WMTS", "WCS", "WFS", "OAPIF", "CSW", "OGCAPI", "PLMOSAIC", "PLSCENES",
          "DAAS", "EEDA", "EEDAI", "STACTA", "Carto", "AmigoCloud", "Elasticsearch", "NGW"}) {
      if (GDALDriver* driver = drivers.GetDriverByName(name)) drivers.DeregisterDriver(driver);
    }
  });
}

GdalTalk::GdalTalk() { CPLPushErrorHandlerEx(&GdalTalk::hear, this); }

GdalTalk::~GdalTalk() { CPLPopErrorHandler(); }

void CPL_STDCALL GdalTalk::hear(CPLErr severity, CPLErrorNum, const char* text) {
  if (severity == CE_Debug || severity == CE_None) return;
  auto& self = *static_cast<GdalTalk*>(CPLGetErrorHandlerUserData());
  const bool failure = severity >= CE_Failure;
  if (self.first_.empty() || (failure && !self.failed_)) self.first_ = text;
  self.failed_ = self.failed_ || failure;
}

void GdalTalk::forget() {
  failed_ = false;
  first_.clear();
}

std::unexpected<Fault> GdalTalk::fault(FaultCode code, const std::string& file,
                                       std::string_view what, const std::string& hidden) const {
  std::string reason = first_;
  if (!hidden.empty()) {
    for (auto at = reason.find(hidden); at != std::string::npos; at = reason.find(hidden, at)) {
      reason.replace(at, hidden.size(), file);
      at += file.size();
    }
  }
  std::ranges::replace(reason, '\n', ' ');
  std::string line = file + ": " + std::string(what);
  if (!reason.empty()) line += ": " + reason;
  return fail(code, std::move(line));
}

}  // namespace lodeway::io
