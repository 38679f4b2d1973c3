# What is installed, and the Debian package made of it (script/package).
set(described "${CMAKE_BINARY_DIR}/described")
add_custom_command(OUTPUT "${described}.made"
  COMMAND python3 "${CMAKE_SOURCE_DIR}/tools/describe_program" $<TARGET_FILE:lodeway> "${described}"
  COMMAND ${CMAKE_COMMAND} -E touch "${described}.made"
  DEPENDS lodeway lodeway-full "${CMAKE_SOURCE_DIR}/tools/describe_program" VERBATIM)
# Part of the whole build, so that the package is tested whenever the rest is.
add_custom_target(described ALL DEPENDS "${described}.made")

install(TARGETS lodeway lodeway-full RUNTIME DESTINATION lib/lodeway)
# A link, for the program looks for its other half beside itself, wherever it was called from.
install(CODE [[
  file(MAKE_DIRECTORY "$ENV{DESTDIR}${CMAKE_INSTALL_PREFIX}/bin")
  file(CREATE_LINK ../lib/lodeway/lodeway "$ENV{DESTDIR}${CMAKE_INSTALL_PREFIX}/bin/lodeway" SYMBOLIC)
]])
install(DIRECTORY "${described}/" DESTINATION share)
install(FILES packaging/lodeway.desktop DESTINATION share/applications)
install(FILES web/public/icon.svg RENAME lodeway.svg DESTINATION share/icons/hicolor/scalable/apps)
install(DIRECTORY examples/ DESTINATION share/lodeway/examples FILES_MATCHING PATTERN "*.toml")
install(FILES README.md CHANGELOG.md THIRD-PARTY.md DESTINATION share/doc/lodeway)
install(FILES LICENSE RENAME copyright DESTINATION share/doc/lodeway)
install(DIRECTORY docs/ DESTINATION share/doc/lodeway/docs
        FILES_MATCHING PATTERN "*.md" PATTERN "*.svg" PATTERN "explained-*"
        PATTERN decisions EXCLUDE PATTERN spelling EXCLUDE)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME lodeway)
set(CPACK_PACKAGE_VENDOR "the Lodeway authors")
set(CPACK_PACKAGE_CONTACT "the Lodeway authors <lodeway@invalid.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "plan, rehearse and print trips on foot by map and compass")
set(CPACK_PACKAGE_DESCRIPTION
    "Lodeway is for a leader who takes a small party over open ground with a paper
map, a compass and a watch. It finds a way, cuts it into legs, says how often
each is kept and what it leads past, and prints map sheets, route card and a
note for those at home. Walkers' errors are in the model, and are checked by
simulated parties. It never says that ground is harmless.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-b612, fonts-noto-core, proj-data, tzdata")
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "osmium-tool, gdal-bin")
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
# The times of all files are that of the source, for those of the build differ each time.
set(CPACK_PRE_BUILD_SCRIPTS "${CMAKE_SOURCE_DIR}/cmake/package_times.cmake")
include(CPack)
