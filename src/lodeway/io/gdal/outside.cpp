#include "lodeway/io/gdal/detail/outside.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <ctime>
#include <filesystem>
#include <mutex>
#include <string_view>
#include <utility>
#include <vector>

#include <cpl_http.h>
#include <cpl_vsi_virtual.h>
#include <sqlite3.h>

namespace lodeway::io {

namespace {

namespace fs = std::filesystem;

std::string small(std::string text) {
  std::ranges::transform(text, text.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c | 0x20) : c;
  });
  return text;
}

/// Endings that may be read beside a file, by its own.
constexpr std::array<std::pair<std::string_view, std::array<std::string_view, 4>>, 6> beside{
    {{".shp", {".shx", ".dbf", ".prj", ".cpg"}},
     {".tif", {".tfw", ".tifw", ".wld", ""}},
     {".tiff", {".tfw", ".tifw", ".wld", ""}},
     {".asc", {".prj", "", "", ""}},
     {".bt", {".prj", "", "", ""}},
     {".img", {".ige", "", "", ""}}}};

}  // namespace

struct Outside::Fence {
  std::string path, stem, ending;
  const Progress& progress;
  std::int64_t steps_left = 0;
  bool stopped = false;
  Fence* before = nullptr;

  [[nodiscard]] bool lets(const char* asked) const {
    const std::string_view name(asked);
    if (name == path) return true;
    if (!name.starts_with(stem)) return false;
    const auto of_it = small(std::string(name.substr(stem.size())));
    const auto known =
        std::ranges::find(beside, ending, [](const auto& pair) { return pair.first; });
    return known != beside.end() && !of_it.empty() &&
           std::ranges::find(known->second, of_it) != known->second.end();
  }
};

namespace {

thread_local Outside::Fence* fence = nullptr;

/// GDAL's own tables of coordinate systems lie beside it, not with the file.
bool is_own_table(const char* name) {
  static const std::string folder = [] {
    const char* given = CPLGetConfigOption("GDAL_DATA", nullptr);
    return std::string(given != nullptr && *given == '/' ? given : "/usr/share/gdal");
  }();
  const std::string_view asked(name);
  return asked.starts_with(folder + "/") && asked.find("..") == std::string_view::npos;
}

bool may_read(const char* name) {
  return fence == nullptr || fence->lets(name) || is_own_table(name);
}

/// Plain files, through GDAL's own handler, as far as the fence of this thread goes.
class FencedFiles : public VSIFilesystemHandler {
 public:
  explicit FencedFiles(VSIFilesystemHandler* plain) : plain_(plain) {}

  VSIVirtualHandle* Open(const char* name, const char* access, bool set_error,
                         CSLConstList options) override {
    const bool reads = access[0] == 'r' && std::string_view(access).find('+') == std::string::npos;
    if (fence != nullptr && !(reads && may_read(name))) return refuse_open();
    return plain_->Open(name, access, set_error, options);
  }
  int Stat(const char* name, VSIStatBufL* stat, int flags) override {
    if (!may_read(name)) return refuse();
    return plain_->Stat(name, stat, flags);
  }
  int Unlink(const char* name) override { return fence ? refuse() : plain_->Unlink(name); }
  int Mkdir(const char* name, long mode) override {
    return fence ? refuse() : plain_->Mkdir(name, mode);
  }
  int Rmdir(const char* name) override { return fence ? refuse() : plain_->Rmdir(name); }
  int Rename(const char* from, const char* to) override {
    return fence ? refuse() : plain_->Rename(from, to);
  }
  char** ReadDirEx(const char* name, int most) override {
    return fence ? nullptr : plain_->ReadDirEx(name, most);
  }
  int IsCaseSensitive(const char* name) override { return plain_->IsCaseSensitive(name); }
  GIntBig GetDiskFreeSpace(const char* name) override { return plain_->GetDiskFreeSpace(name); }
  int SupportsSparseFiles(const char* name) override { return plain_->SupportsSparseFiles(name); }
  bool IsLocal(const char* name) override { return plain_->IsLocal(name); }
  VSIDIR* OpenDir(const char* name, int depth, const char* const* options) override {
    return fence ? nullptr : plain_->OpenDir(name, depth, options);
  }

 private:
  static VSIVirtualHandle* refuse_open() {
    errno = EACCES;
    return nullptr;
  }
  static int refuse() {
    errno = EACCES;
    return -1;
  }
  std::unique_ptr<VSIFilesystemHandler> plain_;
};

/// In the place of a file system that leads elsewhere.
class NoFiles : public VSIFilesystemHandler {
 public:
  VSIVirtualHandle* Open(const char*, const char*, bool, CSLConstList) override {
    errno = EACCES;
    return nullptr;
  }
  int Stat(const char*, VSIStatBufL*, int) override {
    errno = EACCES;
    return -1;
  }
};

CPLHTTPResult* no_network(const char*, CSLConstList, GDALProgressFunc, void*, CPLHTTPFetchWriteFunc,
                          void*, void*) {
  auto* out = static_cast<CPLHTTPResult*>(CPLCalloc(1, sizeof(CPLHTTPResult)));
  out->nStatus = 1;
  out->pszErrBuf = CPLStrdup("nothing is fetched");
  return out;
}

constexpr int steps_between = 20'000;  // of SQLite's machine, well under a millisecond

int look(void*) {
  if (fence == nullptr) return 0;
  fence->steps_left -= steps_between;
  if (!goes_on(fence->progress, -1, "reading " + fs::path(fence->path).filename().string()))
    fence->stopped = true;
  return fence->stopped || fence->steps_left < 0 ? 1 : 0;
}

int watch(sqlite3* db, char**, const sqlite3_api_routines*) {
  sqlite3_progress_handler(db, steps_between, look, nullptr);
  return SQLITE_OK;
}

}  // namespace

Outside::Outside(const std::string& path, const Progress& progress)
    : fence_(new Fence{as_path(path), "", "", progress}) {
  gdal_ready();
  // SQLite calls it for each file it opens from now on, whoever opens it. Asked for each time: GDAL
  // may have emptied SQLite's list meanwhile; what stands in it already is not added again.
  using Entry = void (*)();
  sqlite3_auto_extension(reinterpret_cast<Entry>(&watch));  // as its manual has it
  const fs::path p(fence_->path);
  fence_->ending = small(p.extension().string());
  fence_->stem = fence_->path.substr(0, fence_->path.size() - p.extension().string().size());
  std::error_code error;
  const auto bytes = fs::file_size(p, error);
  constexpr std::int64_t least = 20'000'000, a_byte = 50, most_bytes = 1LL << 40;
  fence_->steps_left =
      least + a_byte * (error ? 0 : std::min(static_cast<std::int64_t>(bytes), most_bytes));
  fence_->before = std::exchange(fence, fence_.get());
}

Outside::~Outside() { fence = fence_->before; }

bool Outside::stopped() const { return fence_->stopped; }

Dataset Outside::open(unsigned flags, const char* const* drivers,
                      const char* const* options) const {
  const auto why = not_plain(fence_->path);
  if (!why.empty()) {
    CPLError(CE_Failure, CPLE_OpenFailed, "%s", why.c_str());
    return nullptr;
  }
  // An own list of what lies beside it: GDAL then looks for nothing else.
  return Dataset(
      GDALDataset::Open(fence_->path.c_str(), flags | GDAL_OF_READONLY, drivers, options, nullptr));
}

std::string as_path(const std::string& path) {
  std::error_code error;
  const auto whole = fs::absolute(path, error);
  return error ? "./" + path : whole.string();
}

void close_to_outside() {
  static std::once_flag once;
  std::call_once(once, [] {
    static const CPLStringList prefixes(VSIFileManager::GetPrefixes());
    // The library forgets whom it replaces; not freed, as others may be in the midst of them.
    static auto& replaced = *new std::vector<VSIFilesystemHandler*>;
    for (int i = 0; i < prefixes.size(); ++i) {
      const std::string_view prefix(prefixes[i]);
      if (prefix == "/vsimem/" || prefix == "/vsisubfile/") continue;  // this memory, this file
      replaced.push_back(VSIFileManager::GetHandler(prefixes[i]));
      VSIFileManager::InstallHandler(std::string(prefix), new NoFiles);
    }
    VSIFileManager::InstallHandler("", new FencedFiles(VSIFileManager::GetHandler("/")));
    CPLHTTPSetFetchCallback(no_network, nullptr);
    OSRSetPROJEnableNetwork(0);
  });
}

bool names_files(const OGRSpatialReference& crs) {
  char* text = nullptr;
  const char* const as_wkt2[] = {"FORMAT=WKT2_2019", nullptr};
  bool out = false;
  if (crs.exportToWkt(&text, as_wkt2) == OGRERR_NONE) {
    const std::string wkt = small(text);
    for (const char* word : {"parameterfile", "grids", "+init", "proj4_grids"})
      out = out || wkt.find(word) != std::string::npos;
  }
  CPLFree(text);
  return out;
}

}  // namespace lodeway::io
