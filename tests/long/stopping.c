/* Laid before the system's library: counts what changes files, and ends the process in the place
   of the one it was told. A write is two such moments: before it, and after half of it. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

static long counting, passed_by, stop_at;

void count_from_here(long at) { counting = 1; passed_by = 0; stop_at = at; }
long passed(void) { return passed_by; }

static int is_now(void) { return counting && ++passed_by == stop_at; }
static void stop(void) { kill(getpid(), SIGKILL); pause(); }

static int on_disk(int fd) {
    struct stat told;
    return counting && fstat(fd, &told) == 0 && S_ISREG(told.st_mode);
}

#define REAL(type, name, ...) \
    static type (*real)(__VA_ARGS__); \
    if (!real) real = (type (*)(__VA_ARGS__))dlsym(RTLD_NEXT, #name)

ssize_t write(int fd, const void *data, size_t size) {
    REAL(ssize_t, write, int, const void *, size_t);
    if (on_disk(fd)) {
        if (is_now()) stop();
        if (is_now()) { real(fd, data, size / 2); stop(); }
    }
    return real(fd, data, size);
}

#define PWRITE(name, off) \
    ssize_t name(int fd, const void *data, size_t size, off at) { \
        REAL(ssize_t, name, int, const void *, size_t, off); \
        if (on_disk(fd)) { \
            if (is_now()) stop(); \
            if (is_now()) { real(fd, data, size / 2, at); stop(); } \
        } \
        return real(fd, data, size, at); \
    }
PWRITE(pwrite, off_t)
PWRITE(pwrite64, off64_t)

/* A killed process loses nothing that it wrote, synced or not: a sync is a moment, and no more. */
int fsync(int fd) { (void)fd; if (is_now()) stop(); return 0; }
int fdatasync(int fd) { return fsync(fd); }

/* What is done whole or not at all: one moment, before it. */
#define WHOLE(result, name, types, names) \
    result name types { \
        static result (*real) types; \
        if (!real) real = (result (*) types)dlsym(RTLD_NEXT, #name); \
        if (is_now()) stop(); \
        return real names; \
    }
WHOLE(int, ftruncate, (int fd, off_t to), (fd, to))
WHOLE(int, ftruncate64, (int fd, off64_t to), (fd, to))
WHOLE(int, rename, (const char *from, const char *to), (from, to))
WHOLE(int, renameat, (int a, const char *from, int b, const char *to), (a, from, b, to))
WHOLE(int, link, (const char *from, const char *to), (from, to))
WHOLE(int, linkat, (int a, const char *from, int b, const char *to, int how), (a, from, b, to, how))
WHOLE(int, unlink, (const char *path), (path))
WHOLE(int, unlinkat, (int fd, const char *path, int how), (fd, path, how))
WHOLE(int, mkdir, (const char *path, mode_t mode), (path, mode))
WHOLE(int, rmdir, (const char *path), (path))
WHOLE(ssize_t, sendfile64, (int to, int from, off64_t *at, size_t size), (to, from, at, size))
WHOLE(ssize_t, sendfile, (int to, int from, off_t *at, size_t size), (to, from, at, size))
WHOLE(ssize_t, copy_file_range,
      (int from, off64_t *at, int to, off64_t *into, size_t size, unsigned how),
      (from, at, to, into, size, how))
