// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The store's questions to the operating system, as Linux answers them.
#include "store/operating_system.h"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>

#include <fcntl.h>
#include <linux/fs.h>
#include <sys/stat.h>
#include <sys/vfs.h>
#include <unistd.h>

namespace store::system {

namespace {

std::error_code lastError() {
    return {errno, std::generic_category()};
}

// Some shares do not have it for folders.
bool knowsNoFlush(const std::error_code& error) {
    return error == std::errc::invalid_argument || error == std::errc::not_supported ||
           error == std::errc::operation_not_supported ||
           error == std::errc::function_not_supported;
}

bool isFolder(int file) {
    struct stat status {};
    return ::fstat(file, &status) == 0 && S_ISDIR(status.st_mode);
}

// Not every file system has RENAME_NOREPLACE; a second name does not replace either. What cannot
// lose its first name does not keep the second, so that it has moved or has not.
std::error_code moveByLink(const std::filesystem::path& from, const std::filesystem::path& to) {
    if (::link(from.c_str(), to.c_str()) == 0) {
        if (::unlink(from.c_str()) == 0) {
            return {};
        }
        const std::error_code error = lastError();
        (void)::unlink(to.c_str());
        return error;
    }
    const std::error_code linkError = lastError();
    if (linkError == std::errc::file_exists || std::filesystem::exists(to)) {
        return std::make_error_code(std::errc::file_exists);
    }
    // Memory sticks often know neither. Between the question above and this another program
    // would have to make a file of that very name.
    return ::rename(from.c_str(), to.c_str()) == 0 ? std::error_code{} : lastError();
}

std::error_code copyBytes(int from, int to) {
    std::array<char, 65536> bytes{};
    for (;;) {
        const auto count = ::read(from, bytes.data(), bytes.size());
        if (count < 0) {
            return lastError();
        }
        if (count == 0) {
            return ::fsync(to) == 0 ? std::error_code{} : lastError();
        }
        for (ssize_t done = 0; done < count;) {
            const auto written =
                ::write(to, bytes.data() + done, static_cast<std::size_t>(count - done));
            if (written < 0) {
                return lastError();
            }
            done += written;
        }
    }
}

// Closes it in the end. Waits for nobody: at a pipe that nobody reads it gives an error.
class SmallFile {
public:
    SmallFile(const std::filesystem::path& path, int flags)
        : m_file(::openat(AT_FDCWD, path.c_str(), flags | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC,
                          S_IRUSR | S_IWUSR | S_IRGRP | S_IWGRP | S_IROTH | S_IWOTH)) {}
    ~SmallFile() {
        if (m_file >= 0) {
            ::close(m_file);
        }
    }
    SmallFile(const SmallFile&) = delete;
    SmallFile& operator=(const SmallFile&) = delete;

    [[nodiscard]] int descriptor() const { return m_file; }
    [[nodiscard]] bool isPlain() const {
        struct stat status {};
        return m_file >= 0 && ::fstat(m_file, &status) == 0 && S_ISREG(status.st_mode) &&
               status.st_nlink == 1;
    }

private:
    int m_file;
};

}  // namespace

std::int64_t processNumber() {
    return ::getpid();
}

std::string computerName() {
    std::array<char, 256> name{};
    if (::gethostname(name.data(), name.size() - 1) != 0) {
        return {};
    }
    return name.data();
}

bool processRuns(std::int64_t number) {
    if (number <= 0) {
        return false;
    }
    // EPERM: it runs, as another user.
    return ::kill(static_cast<pid_t>(number), 0) == 0 || errno == EPERM;
}

std::optional<std::filesystem::path> folderOfUser() {
    const auto stated = [](const char* name) -> std::optional<std::filesystem::path> {
        const char* const text = std::getenv(name);
        const std::filesystem::path path(text == nullptr ? "" : text);
        return path.is_absolute() ? std::optional(path) : std::nullopt;
    };
    if (auto folder = stated("XDG_STATE_HOME")) {
        return folder;
    }
    const auto home = stated("HOME");
    return home ? std::optional(*home / ".local" / "state") : std::nullopt;
}

bool mayRead(const std::filesystem::path& file) {
    return ::access(file.c_str(), R_OK) == 0;
}

bool mayWrite(const std::filesystem::path& fileOrFolder) {
    return ::access(fileOrFolder.c_str(), W_OK) == 0;
}

std::optional<std::string_view> networkFileSystem(std::uint64_t typeNumber) {
    // statfs(2)
    switch (typeNumber) {
        case 0x6969: return "nfs";
        case 0xFF534D42: return "cifs";
        case 0x517B:
        case 0xFE534D42: return "smb";
        case 0x01021997: return "9p";
        case 0x65735546: return "fuse";
        default: return std::nullopt;
    }
}

std::optional<std::string_view> networkFileSystemOf(const std::filesystem::path& fileOrFolder) {
    struct statfs answer {};
    if (::statfs(fileOrFolder.c_str(), &answer) != 0) {
        return std::nullopt;
    }
    return networkFileSystem(static_cast<std::uint64_t>(answer.f_type) & 0xFFFFFFFFU);
}

std::error_code makePrivateFile(const std::filesystem::path& path) {
    const int file =
        ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
    if (file < 0) {
        return lastError();
    }
    ::close(file);
    return {};
}

std::optional<std::string> readSmallFile(const std::filesystem::path& path,
                                         std::size_t mostBytes) {
    const SmallFile file(path, O_RDONLY);
    if (!file.isPlain()) {
        return std::nullopt;
    }
    std::string text(mostBytes + 1, '\0');
    std::size_t size = 0;
    while (size < text.size()) {
        const auto count = ::read(file.descriptor(), text.data() + size, text.size() - size);
        if (count < 0) {
            return std::nullopt;
        }
        if (count == 0) {
            text.resize(size);
            return text;
        }
        size += static_cast<std::size_t>(count);
    }
    return std::nullopt;
}

bool writeSmallFile(const std::filesystem::path& path, std::string_view text) {
    const SmallFile file(path, O_WRONLY | O_CREAT);
    if (!file.isPlain() || ::ftruncate(file.descriptor(), 0) != 0) {
        return false;
    }
    return ::write(file.descriptor(), text.data(), text.size()) ==
           static_cast<ssize_t>(text.size());
}

std::error_code flush(const std::filesystem::path& fileOrFolder) {
    const int file = ::open(fileOrFolder.c_str(), O_RDONLY | O_CLOEXEC);
    if (file < 0) {
        return lastError();
    }
    std::error_code error = ::fsync(file) == 0 ? std::error_code{} : lastError();
    if (error && knowsNoFlush(error) && isFolder(file)) {
        error.clear();
    }
    ::close(file);
    return error;
}

std::error_code flushAndForget(const std::filesystem::path& file) {
    const auto error = flush(file);
    const int opened = error ? -1 : ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
    if (opened >= 0) {
        ::posix_fadvise(opened, 0, 0, POSIX_FADV_DONTNEED);
        ::close(opened);
    }
    return error;
}

std::error_code copyFile(const std::filesystem::path& from, const std::filesystem::path& to) {
    const int source = ::open(from.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    struct stat status {};
    if (source < 0 || ::fstat(source, &status) != 0) {
        const auto error = lastError();
        source < 0 ? 0 : ::close(source);
        return error;
    }
    const int target = ::open(to.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC,
                              status.st_mode & (S_IRWXU | S_IRWXG | S_IRWXO));
    auto error = target < 0 ? lastError() : copyBytes(source, target);
    ::close(source);
    if (target >= 0) {
        ::close(target);
    }
    if (target >= 0 && error) {
        ::unlink(to.c_str());
    }
    return error;
}

std::error_code removeFile(const std::filesystem::path& path) {
    return ::unlink(path.c_str()) == 0 ? std::error_code{} : lastError();
}

std::optional<std::uint64_t> fileNumber(const std::filesystem::path& path) {
    struct stat status {};
    if (::lstat(path.c_str(), &status) != 0) {
        return std::nullopt;
    }
    return static_cast<std::uint64_t>(status.st_ino);
}

std::error_code exchangeNames(const std::filesystem::path& one,
                              const std::filesystem::path& other) {
    const int failed =
        ::renameat2(AT_FDCWD, one.c_str(), AT_FDCWD, other.c_str(), RENAME_EXCHANGE);
    return failed == 0 ? std::error_code{} : lastError();
}

std::error_code moveWithoutReplacing(const std::filesystem::path& from,
                                     const std::filesystem::path& to) {
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) {
        return {};
    }
    const std::error_code error = lastError();
    if (error == std::errc::invalid_argument || error == std::errc::function_not_supported) {
        return moveByLink(from, to);
    }
    return error;
}

}  // namespace store::system
