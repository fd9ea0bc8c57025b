/*
 * Loaded before the C library of a process (LD_PRELOAD on Linux), it counts the calls that change a folder and lets one of
 * them fail, or ends the process there. Built and driven by try-fault.ts.
 *
 * FAULT_FOLDER  calls on paths below it count
 * FAULT_LOG     a line for each call that counts: its number, its name, its path
 * FAULT_AT      the number of the call that fails; 0 for none
 * FAULT_KIND    an error number; "full" (no space from there on), "torn" (half is written, then no space),
 *               "kill" or "interrupt" (the signal, before the call), "cut" (half is written, then the process is killed)
 * FAULT_LINKS   "none" where the disk knows no hard links
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/uio.h>
#include <unistd.h>

static atomic_int calls = 0;
static atomic_int isFull = 0;

#define REAL(result, name, ...) \
  static result (*real)(__VA_ARGS__) = NULL; \
  if (real == NULL) real = (result(*)(__VA_ARGS__))dlsym(RTLD_NEXT, name)

static int isBelow(const char *path) {
  const char *folder = getenv("FAULT_FOLDER");
  if (folder == NULL || path == NULL) return 0;
  char whole[2 * PATH_MAX];
  if (path[0] == '/') snprintf(whole, sizeof whole, "%s", path);
  else {
    char working[PATH_MAX];
    if (getcwd(working, sizeof working) == NULL) return 0;
    snprintf(whole, sizeof whole, "%s/%s", working, path);
  }
  size_t length = strlen(folder);
  return strncmp(whole, folder, length) == 0 && (whole[length] == '/' || whole[length] == 0);
}

static int pathOf(int descriptor, char *path, size_t size) {
  char name[64];
  snprintf(name, sizeof name, "/proc/self/fd/%d", descriptor);
  ssize_t length = readlink(name, path, size - 1);
  if (length < 0) return 0;
  path[length] = 0;
  return path[0] == '/' && isBelow(path);
}

enum { GO_ON = 0, FAIL = 1, HALF = 2, HALF_THEN_KILL = 3 };

/* Counts a call and says what is to become of it; errno is set where it fails. */
static int fate(const char *name, const char *path, int takesSpace) {
  int number = atomic_fetch_add(&calls, 1) + 1;
  const char *log = getenv("FAULT_LOG");
  if (log != NULL) {
    char line[2 * PATH_MAX];
    int length = snprintf(line, sizeof line, "%d %s %s\n", number, name, path);
    REAL(int, "open", const char *, int, ...);
    int descriptor = real(log, O_WRONLY | O_CREAT | O_APPEND, 0600);
    if (descriptor >= 0) {
      static ssize_t (*realWrite)(int, const void *, size_t) = NULL;
      if (realWrite == NULL) realWrite = (ssize_t(*)(int, const void *, size_t))dlsym(RTLD_NEXT, "write");
      if (realWrite(descriptor, line, length) < 0) abort();
      close(descriptor);
    }
  }
  const char *links = getenv("FAULT_LINKS");
  if (links != NULL && strcmp(name, "link") == 0) {
    errno = EPERM;
    return FAIL;
  }
  if (atomic_load(&isFull) && takesSpace) {
    errno = ENOSPC;
    return FAIL;
  }
  const char *at = getenv("FAULT_AT");
  if (at == NULL || atoi(at) != number) return GO_ON;
  const char *kind = getenv("FAULT_KIND");
  if (kind == NULL) return GO_ON;
  int isWrite = strcmp(name, "write") == 0;
  if (strcmp(kind, "kill") == 0 || (strcmp(kind, "cut") == 0 && !isWrite)) kill(getpid(), SIGKILL);
  if (strcmp(kind, "cut") == 0) return HALF_THEN_KILL;
  if (strcmp(kind, "interrupt") == 0) {
    kill(getpid(), SIGINT);
    return GO_ON;
  }
  if (strcmp(kind, "full") == 0 || strcmp(kind, "torn") == 0) {
    atomic_store(&isFull, 1);
    if (!takesSpace) return GO_ON;
    if (isWrite && strcmp(kind, "torn") == 0) return HALF;
    errno = ENOSPC;
    return FAIL;
  }
  errno = atoi(kind);
  return FAIL;
}

static int fateOf(const char *name, int descriptor, int takesSpace) {
  char path[PATH_MAX];
  return pathOf(descriptor, path, sizeof path) ? fate(name, path, takesSpace) : GO_ON;
}

static int opened(const char *path, int flags, mode_t mode, const char *symbol) {
  static int (*realOpen)(const char *, int, ...) = NULL;
  if (realOpen == NULL) realOpen = (int (*)(const char *, int, ...))dlsym(RTLD_NEXT, symbol);
  if ((flags & O_ACCMODE) != O_RDONLY && isBelow(path)) {
    if (fate("open", path, (flags & O_CREAT) != 0) == FAIL) return -1;
  }
  return realOpen(path, flags, mode);
}

#define OPEN(name) \
  int name(const char *path, int flags, ...) { \
    mode_t mode = 0; \
    if (flags & O_CREAT) { \
      va_list rest; \
      va_start(rest, flags); \
      mode = va_arg(rest, mode_t); \
      va_end(rest); \
    } \
    return opened(path, flags, mode, "open"); \
  }
OPEN(open)
OPEN(open64)

static int halfOf(int kind, size_t *size) {
  if (kind == HALF || kind == HALF_THEN_KILL) *size = *size / 2;
  return kind == HALF_THEN_KILL;
}

ssize_t write(int descriptor, const void *bytes, size_t size) {
  REAL(ssize_t, "write", int, const void *, size_t);
  int kind = fateOf("write", descriptor, 1);
  if (kind == FAIL) return -1;
  int isLast = halfOf(kind, &size);
  ssize_t written = real(descriptor, bytes, size);
  if (isLast) kill(getpid(), SIGKILL);
  return written;
}

#define PWRITE(name) \
  ssize_t name(int descriptor, const void *bytes, size_t size, off_t offset) { \
    REAL(ssize_t, #name, int, const void *, size_t, off_t); \
    int kind = fateOf("write", descriptor, 1); \
    if (kind == FAIL) return -1; \
    int isLast = halfOf(kind, &size); \
    ssize_t written = real(descriptor, bytes, size, offset); \
    if (isLast) kill(getpid(), SIGKILL); \
    return written; \
  }
PWRITE(pwrite)
PWRITE(pwrite64)

ssize_t writev(int descriptor, const struct iovec *pieces, int count) {
  REAL(ssize_t, "writev", int, const struct iovec *, int);
  int kind = fateOf("write", descriptor, 1);
  if (kind == FAIL) return -1;
  if (kind == GO_ON) return real(descriptor, pieces, count);
  ssize_t written = real(descriptor, pieces, 1);
  if (kind == HALF_THEN_KILL) kill(getpid(), SIGKILL);
  return written;
}

#define ON_DESCRIPTOR(name, takesSpace) \
  int name(int descriptor) { \
    REAL(int, #name, int); \
    return fateOf(#name, descriptor, takesSpace) == FAIL ? -1 : real(descriptor); \
  }
ON_DESCRIPTOR(fsync, 0)
ON_DESCRIPTOR(fdatasync, 0)

int fchmod(int descriptor, mode_t mode) {
  REAL(int, "fchmod", int, mode_t);
  return fateOf("fchmod", descriptor, 0) == FAIL ? -1 : real(descriptor, mode);
}

#define TRUNCATE(name) \
  int name(int descriptor, off_t size) { \
    REAL(int, #name, int, off_t); \
    return fateOf("ftruncate", descriptor, 0) == FAIL ? -1 : real(descriptor, size); \
  }
TRUNCATE(ftruncate)
TRUNCATE(ftruncate64)

#define ON_PATH(name) \
  int name(const char *path) { \
    REAL(int, #name, const char *); \
    return isBelow(path) && fate(#name, path, 0) == FAIL ? -1 : real(path); \
  }
ON_PATH(unlink)
ON_PATH(rmdir)

int mkdir(const char *path, mode_t mode) {
  REAL(int, "mkdir", const char *, mode_t);
  return isBelow(path) && fate("mkdir", path, 1) == FAIL ? -1 : real(path, mode);
}

#define ON_TWO_PATHS(name, takesSpace) \
  int name(const char *from, const char *to) { \
    REAL(int, #name, const char *, const char *); \
    return isBelow(to) && fate(#name, to, takesSpace) == FAIL ? -1 : real(from, to); \
  }
ON_TWO_PATHS(rename, 0)
ON_TWO_PATHS(link, 0)
