#include <algorithm>
#include <mutex>

#include "lodeway/io/gdal/detail/talk.hpp"

namespace lodeway::io {

void gdal_ready() {
  static std::once_flag once;
  std::call_once(once, [] {
    CPLSetConfigOption("GDAL_SKIP", "HTTP WMS WMTS WCS PLMOSAIC DAAS EEDA EEDAI OGCAPI STACTA");
    CPLSetConfigOption("OGR_SKIP", "WFS,OAPIF,CSW,Carto,Elastic,CouchDB,Cloudant,PLScenes,NGW,AmigoCloud");
    GDALAllRegister();
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
