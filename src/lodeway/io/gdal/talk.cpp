#include <algorithm>
#include <mutex>

#include <gdal_frmts.h>
#include <ogrsf_frmts.h>

#include "lodeway/io/gdal/detail/outside.hpp"
#include "lodeway/io/gdal/detail/talk.hpp"

namespace lodeway::io {

void gdal_ready() {
  static std::once_flag once;
  std::call_once(once, [] {
    for (const auto add :
         {GDALRegister_MEM, GDALRegister_GTiff, GDALRegister_PNG, GDALRegister_SRTMHGT,
          GDALRegister_AAIGrid, GDALRegister_DTED, GDALRegister_USGSDEM, GDALRegister_BT,
          GDALRegister_HFA, RegisterOGRGeoPackage, RegisterOGRShape, RegisterOGRGeoJSON,
          RegisterOGRGPX}) {
      add();
    }
    close_to_outside();
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
