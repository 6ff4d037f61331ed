package padward.hostile.disk;

import java.io.IOException;
import java.net.URI;
import java.nio.file.FileSystem;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.WatchEvent;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;

/** A path on a {@link FaultyDisk}. */
record FaultyPath(FaultyDisk.Files system, Path real) implements Path {
    static Path unwrap(Path path) {
        return path instanceof FaultyPath faulty ? faulty.real : path;
    }

    private Path wrap(Path path) {
        return path == null ? null : new FaultyPath(system, path);
    }

    @Override
    public FileSystem getFileSystem() {
        return system;
    }

    @Override
    public boolean isAbsolute() {
        return real.isAbsolute();
    }

    @Override
    public Path getRoot() {
        return wrap(real.getRoot());
    }

    @Override
    public Path getFileName() {
        return wrap(real.getFileName());
    }

    @Override
    public Path getParent() {
        return wrap(real.getParent());
    }

    @Override
    public int getNameCount() {
        return real.getNameCount();
    }

    @Override
    public Path getName(int index) {
        return wrap(real.getName(index));
    }

    @Override
    public Path subpath(int from, int to) {
        return wrap(real.subpath(from, to));
    }

    @Override
    public boolean startsWith(Path other) {
        return real.startsWith(unwrap(other));
    }

    @Override
    public boolean endsWith(Path other) {
        return real.endsWith(unwrap(other));
    }

    @Override
    public Path normalize() {
        return wrap(real.normalize());
    }

    @Override
    public Path resolve(Path other) {
        return wrap(real.resolve(unwrap(other)));
    }

    @Override
    public Path relativize(Path other) {
        return wrap(real.relativize(unwrap(other)));
    }

    @Override
    public URI toUri() {
        return real.toUri();
    }

    @Override
    public Path toAbsolutePath() {
        return wrap(real.toAbsolutePath());
    }

    @Override
    public Path toRealPath(LinkOption... options) throws IOException {
        return wrap(real.toRealPath(options));
    }

    @Override
    public WatchKey register(
            WatchService watcher, WatchEvent.Kind<?>[] events, WatchEvent.Modifier... modifiers) {
        throw new UnsupportedOperationException();
    }

    @Override
    public int compareTo(Path other) {
        return real.compareTo(unwrap(other));
    }

    @Override
    public String toString() {
        return real.toString();
    }
}
