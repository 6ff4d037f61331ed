package padward.format.source;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;

/**
 * Something that can be read, more than once, and that knows how to find what is named relative to
 * it: a file, or a resource of the class path.
 */
public sealed interface Source {
    /** Its name in messages. */
    String label();

    /** A new stream from its first byte. */
    InputStream open() throws IOException;

    /** Its length in bytes, -1 when that is not known. */
    long size();

    /** What a relative name in it refers to; empty when that is impossible. */
    Optional<Source> findBeside(String relative);

    /** Whether its name says that it is gzip data. */
    default boolean zipped() {
        return label().endsWith(".gz");
    }

    /** A file. */
    static Source of(Path file) {
        return new OfFile(file);
    }

    /** A resource, by its absolute name: {@code /padward/fixtures/small/only.design.json}. */
    static Source ofResource(String resource) {
        return new OfResource(resource);
    }

    /**
     * A file.
     *
     * @param file where it is
     */
    record OfFile(Path file) implements Source {
        @Override
        public String label() {
            return file.toString();
        }

        @Override
        public InputStream open() throws IOException {
            return Files.newInputStream(file);
        }

        @Override
        public long size() {
            try {
                return Files.size(file);
            } catch (IOException e) {
                return -1; // opening it reports why
            }
        }

        @Override
        public Optional<Source> findBeside(String relative) {
            try {
                Path other = Path.of(relative);
                return other.isAbsolute()
                        ? Optional.empty()
                        : Optional.of(new OfFile(file.resolveSibling(other).normalize()));
            } catch (InvalidPathException e) {
                return Optional.empty();
            }
        }
    }

    /**
     * A resource of the class path.
     *
     * @param resource its absolute name, with a slash in front
     */
    record OfResource(String resource) implements Source {
        @Override
        public String label() {
            return "built-in " + resource;
        }

        @Override
        public InputStream open() throws IOException {
            InputStream stream = Source.class.getResourceAsStream(resource);
            if (stream == null) {
                throw new NoSuchFileException(resource);
            }
            return stream;
        }

        @Override
        public long size() {
            return -1;
        }

        @Override
        public Optional<Source> findBeside(String relative) {
            try {
                String at =
                        new URI(null, null, resource, null)
                                .resolve(new URI(null, null, relative, null))
                                .getPath();
                return relative.startsWith("/") || at == null
                        ? Optional.empty()
                        : Optional.of(new OfResource(at));
            } catch (URISyntaxException e) {
                return Optional.empty();
            }
        }
    }

    /**
     * A text at hand.
     *
     * @param label what messages call it
     * @param text the text
     */
    record OfText(String label, String text) implements Source {
        @Override
        public InputStream open() {
            return new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
        }

        @Override
        public long size() {
            return text.length();
        }

        @Override
        public Optional<Source> findBeside(String relative) {
            return Optional.empty();
        }
    }
}
