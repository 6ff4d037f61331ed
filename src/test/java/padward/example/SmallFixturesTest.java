package padward.example;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The design files of the small example are what {@link SmallFixtures} writes. */
class SmallFixturesTest {
    private static final Path FOLDER = Path.of("fixtures/small");

    @Test
    void theFilesAreWhatIsBuilt(@TempDir Path temporary) throws Exception {
        for (String name : SmallFixtures.NAMES) {
            Path kept = FOLDER.resolve(name + ".design.json");
            if (Boolean.getBoolean("write.fixtures")) {
                SmallFixtures.write(FOLDER, name, kept);
            }
            Path fresh = temporary.resolve("fresh.json");
            SmallFixtures.write(FOLDER, name, fresh);
            assertThat(kept).hasSameTextualContentAs(fresh);
            assertThat(Files.readString(kept)).contains("Invented design");
        }
    }

    @Test
    void theLessonsDesignIsWhatIsBuilt(@TempDir Path temporary) throws Exception {
        Path folder = Path.of("fixtures/lessons");
        Path kept = folder.resolve("gated.design.json");
        if (Boolean.getBoolean("write.fixtures")) {
            SmallFixtures.writeTideGauge(folder, kept);
        }
        Path fresh = temporary.resolve("fresh.json");
        SmallFixtures.writeTideGauge(folder, fresh);
        assertThat(kept).hasSameTextualContentAs(fresh);
        assertThat(Files.readString(kept)).contains("Invented design");
    }
}
