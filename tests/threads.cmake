# What the thread sanitizer watches: the files that have a test tagged [threads], and of these the tests
# so tagged. They need neither devices nor the program.
file(GLOB_RECURSE thread_test_sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*_test.cpp)
foreach(source IN LISTS thread_test_sources)
    file(STRINGS ${source} tagged REGEX "\\[threads\\]" LIMIT_COUNT 1)
    if(NOT tagged)
        list(REMOVE_ITEM thread_test_sources ${source})
    endif()
endforeach()

compline_batch_tests(thread_test_sources)
add_executable(compline_thread_tests ${thread_test_sources}
    live/offline_rig.cpp support/booking.cpp support/comper.cpp support/forms.cpp
    support/random_decisions.cpp support/temporary_folder.cpp
    ${PROJECT_SOURCE_DIR}/src/app/home_folders.cpp ${PROJECT_SOURCE_DIR}/src/app/opening.cpp ${PROJECT_SOURCE_DIR}/src/app/recorder.cpp
    ${PROJECT_SOURCE_DIR}/src/app/session_files.cpp ${PROJECT_SOURCE_DIR}/src/app/syncer.cpp)
target_compile_definitions(compline_thread_tests PRIVATE COMPLINE_VERSION="${PROJECT_VERSION}")
target_include_directories(compline_thread_tests PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
target_link_libraries(compline_thread_tests PRIVATE compline_live Catch2::Catch2WithMain)
catch_discover_tests(compline_thread_tests TEST_SPEC "[threads]" PROPERTIES TIMEOUT 120)
