# compline_batch_tests(LIST): from nothing sixteen tests are compiled at a time, since half of compiling one is
# reading what it includes. Tests may name their helpers as they like, so CMake's own way of doing that is none
# (2026-12-01: on two cores all of them took 115 s so, and 340 one by one).
function(compline_batch_tests sources)
    if(NOT COMPLINE_UNITY)
        return()
    endif()
    set(batch ${CMAKE_CURRENT_SOURCE_DIR}/batch.py)
    execute_process(COMMAND ${Python3_EXECUTABLE} -B ${batch} --alone ${${sources}}
                    OUTPUT_VARIABLE compiled OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
    list(REMOVE_ITEM ${sources} ${compiled})
    while(${sources})
        list(SUBLIST ${sources} 0 16 files)
        list(REMOVE_ITEM ${sources} ${files})
        list(LENGTH ${sources} left)
        set(together ${CMAKE_CURRENT_BINARY_DIR}/batches/${sources}_${left}.cpp)
        add_custom_command(OUTPUT ${together} DEPENDS ${files} ${batch} VERBATIM
                           COMMAND ${Python3_EXECUTABLE} -B ${batch} ${together} ${files})
        list(APPEND compiled ${together})
    endwhile()
    set(${sources} ${compiled} PARENT_SCOPE)
endfunction()
