package padward.docs;

import java.nio.file.Path;
import org.junit.jupiter.api.condition.EnabledIf;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;

/**
 * Every command that the pages and the help show, with the Java of the self-contained application,
 * which holds the program, where {@code mvn -Pimage package} has made one.
 */
@EnabledIf(value = "made", disabledReason = "no image: mvn -Pimage verify makes and tests one")
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

    /** It is in the Java of the image; the file named is not there, as for the image itself. */
    @Override
    String program() {
        return PARTS.resolve("nothing.jar").toString();
    }

    /** Of the launcher beside the jar, which the application does not have. */
    @Override
    void namesAndNotesSurviveAProcessWithoutALocale() {}

    /** The same whatever Java runs it. */
    @Override
    void theWorkbenchExampleIsReproducedByItsCommand() {}
}
