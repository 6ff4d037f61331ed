package padward.hostile.disk;

import java.io.IOException;
import java.net.URI;
import java.nio.channels.FileChannel;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.AccessMode;
import java.nio.file.CopyOption;
import java.nio.file.DirectoryStream;
import java.nio.file.FileStore;
import java.nio.file.FileSystem;
import java.nio.file.LinkOption;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.nio.file.StandardOpenOption;
import java.nio.file.WatchService;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.FileAttributeView;
import java.nio.file.attribute.UserPrincipalLookupService;
import java.nio.file.spi.FileSystemProvider;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The system's files, where each operation that changes them meets its {@link Fate}. A process uses
 * it for all its files when it is started with {@code
 * -Djava.nio.file.spi.DefaultFileSystemProvider=} and this class.
 */
public final class FaultyDisk extends FileSystemProvider {
    private final FileSystemProvider real;
    private final Files files;

    /**
     * @param real the system's own
     */
    public FaultyDisk(FileSystemProvider real) {
        this.real = real;
        this.files = new Files(this, real.getFileSystem(URI.create("file:///")));
    }

    private static Path plain(Path path) {
        return FaultyPath.unwrap(path);
    }

    private static boolean writes(Set<? extends OpenOption> options) {
        return options.contains(StandardOpenOption.WRITE)
                || options.contains(StandardOpenOption.APPEND);
    }

    @Override
    public String getScheme() {
        return "file";
    }

    @Override
    public FileSystem newFileSystem(URI uri, Map<String, ?> settings) throws IOException {
        return real.newFileSystem(uri, settings);
    }

    @Override
    public FileSystem getFileSystem(URI uri) {
        return files;
    }

    @Override
    public Path getPath(URI uri) {
        return new FaultyPath(files, real.getPath(uri));
    }

    @Override
    public FileChannel newFileChannel(
            Path path, Set<? extends OpenOption> options, FileAttribute<?>... attributes)
            throws IOException {
        if (!writes(options)) {
            return real.newFileChannel(plain(path), options, attributes);
        }
        boolean half = Fate.meet(path.toString(), true);
        FileChannel channel = real.newFileChannel(plain(path), options, attributes);
        if (half) {
            channel.close();
            throw new Fate.Killed();
        }
        return new FaultyChannel(channel, path.toString());
    }

    @Override
    public SeekableByteChannel newByteChannel(
            Path path, Set<? extends OpenOption> options, FileAttribute<?>... attributes)
            throws IOException {
        return writes(options)
                ? newFileChannel(path, options, attributes)
                : real.newByteChannel(plain(path), options, attributes);
    }

    @Override
    public DirectoryStream<Path> newDirectoryStream(
            Path folder, DirectoryStream.Filter<? super Path> filter) throws IOException {
        List<Path> all = new ArrayList<>();
        try (DirectoryStream<Path> each = real.newDirectoryStream(plain(folder), p -> true)) {
            for (Path path : each) {
                Path wrapped = new FaultyPath(files, path);
                if (filter.accept(wrapped)) {
                    all.add(wrapped);
                }
            }
        }
        return new DirectoryStream<>() {
            @Override
            public Iterator<Path> iterator() {
                return all.iterator();
            }

            @Override
            public void close() {
                // nothing is open
            }
        };
    }

    @Override
    public void createDirectory(Path folder, FileAttribute<?>... attributes) throws IOException {
        Fate.meetWhole(folder.toString(), true);
        real.createDirectory(plain(folder), attributes);
    }

    @Override
    public void delete(Path path) throws IOException {
        Fate.meetWhole(path.toString(), false);
        real.delete(plain(path));
    }

    @Override
    public void copy(Path from, Path to, CopyOption... options) throws IOException {
        Fate.meetWhole(to.toString(), true);
        real.copy(plain(from), plain(to), options);
    }

    @Override
    public void move(Path from, Path to, CopyOption... options) throws IOException {
        Fate.meetWhole(to.toString(), false);
        real.move(plain(from), plain(to), options);
    }

    @Override
    public Path readSymbolicLink(Path link) throws IOException {
        return new FaultyPath(files, real.readSymbolicLink(plain(link)));
    }

    @Override
    public boolean isSameFile(Path one, Path other) throws IOException {
        return real.isSameFile(plain(one), plain(other));
    }

    @Override
    public boolean isHidden(Path path) throws IOException {
        return real.isHidden(plain(path));
    }

    @Override
    public FileStore getFileStore(Path path) throws IOException {
        return real.getFileStore(plain(path));
    }

    @Override
    public void checkAccess(Path path, AccessMode... modes) throws IOException {
        real.checkAccess(plain(path), modes);
    }

    @Override
    public <V extends FileAttributeView> V getFileAttributeView(
            Path path, Class<V> type, LinkOption... options) {
        return real.getFileAttributeView(plain(path), type, options);
    }

    @Override
    public <A extends BasicFileAttributes> A readAttributes(
            Path path, Class<A> type, LinkOption... options) throws IOException {
        return real.readAttributes(plain(path), type, options);
    }

    @Override
    public Map<String, Object> readAttributes(Path path, String names, LinkOption... options)
            throws IOException {
        return real.readAttributes(plain(path), names, options);
    }

    @Override
    public void setAttribute(Path path, String name, Object value, LinkOption... options)
            throws IOException {
        Fate.meetWhole(path.toString(), false);
        real.setAttribute(plain(path), name, value, options);
    }

    /** The files of the disk. */
    static final class Files extends FileSystem {
        private final FaultyDisk disk;
        private final FileSystem real;

        private Files(FaultyDisk disk, FileSystem real) {
            this.disk = disk;
            this.real = real;
        }

        @Override
        public FileSystemProvider provider() {
            return disk;
        }

        @Override
        public void close() {
            throw new UnsupportedOperationException();
        }

        @Override
        public boolean isOpen() {
            return true;
        }

        @Override
        public boolean isReadOnly() {
            return false;
        }

        @Override
        public String getSeparator() {
            return real.getSeparator();
        }

        @Override
        public Iterable<Path> getRootDirectories() {
            List<Path> roots = new ArrayList<>();
            real.getRootDirectories().forEach(r -> roots.add(new FaultyPath(this, r)));
            return roots;
        }

        @Override
        public Iterable<FileStore> getFileStores() {
            return real.getFileStores();
        }

        @Override
        public Set<String> supportedFileAttributeViews() {
            return real.supportedFileAttributeViews();
        }

        @Override
        public Path getPath(String first, String... more) {
            return new FaultyPath(this, real.getPath(first, more));
        }

        @Override
        public PathMatcher getPathMatcher(String pattern) {
            PathMatcher matcher = real.getPathMatcher(pattern);
            return path -> matcher.matches(plain(path));
        }

        @Override
        public UserPrincipalLookupService getUserPrincipalLookupService() {
            return real.getUserPrincipalLookupService();
        }

        @Override
        public WatchService newWatchService() throws IOException {
            return real.newWatchService();
        }
    }
}
