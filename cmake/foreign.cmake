# Every library that is not ours, once, as an imported target.
find_package(PkgConfig REQUIRED)
find_package(fmt REQUIRED)
target_link_libraries(lodeway_flags INTERFACE fmt::fmt)  # its macro stands in the precompiled headers
find_package(GTest REQUIRED)
find_package(Threads REQUIRED)

function(lodeway_pkg name)
  pkg_check_modules(${name} REQUIRED IMPORTED_TARGET ${ARGN})
endfunction()
lodeway_pkg(geographiclib geographiclib)
lodeway_pkg(proj proj)
lodeway_pkg(gdal gdal)
lodeway_pkg(pangocairo pangocairo cairo)
# Its -pthread defines what precompiled headers were made without; the linker needs no such flag here.
set_target_properties(PkgConfig::pangocairo PROPERTIES INTERFACE_COMPILE_OPTIONS "")
lodeway_pkg(png libpng)
lodeway_pkg(sqlite sqlite3)
lodeway_pkg(minizip minizip)
lodeway_pkg(httplib cpp-httplib)

find_package(date REQUIRED)  # date::date-tz: time zones from the system's own files
find_library(EXPAT_LIBRARY expat REQUIRED)
find_package(ZLIB REQUIRED)
find_package(BZip2 REQUIRED)
find_library(HWY_LIBRARY hwy REQUIRED)
