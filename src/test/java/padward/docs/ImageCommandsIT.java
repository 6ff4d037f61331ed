package padward.docs;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.condition.EnabledIf;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;

/**
 * Every command that the pages and the help show, with the Java and the libraries of the
 * self-contained application, where {@code mvn -Pimage package} has made one.
 */
@EnabledIf("made")
@EnabledOnOs(OS.LINUX)
class ImageCommandsIT extends DocumentedCommandsIT {
    private static final Path PARTS = ImageIT.IMAGE.resolve("lib").toAbsolutePath();

    static boolean made() {
        return ImageIT.made();
    }

    @Override
    Path java() {
        return PARTS.resolve("runtime/bin/java");
    }

    @Override
    String program() throws IOException {
        Path app = PARTS.resolve("app");
        try (Stream<Path> jars = Files.list(app.resolve("lib"))) {
            return Stream.concat(Stream.of(app.resolve("padward.jar")), jars.sorted())
                    .map(Path::toString)
                    .collect(Collectors.joining(File.pathSeparator));
        }
    }

    /** Of the launcher beside the jar, which the application does not have. */
    @Override
    void namesAndNotesSurviveAProcessWithoutALocale() {}

    /** The same whatever Java runs it. */
    @Override
    void theWorkbenchExampleIsReproducedByItsCommand() {}
}
