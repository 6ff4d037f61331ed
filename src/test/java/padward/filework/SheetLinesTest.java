package padward.filework;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Sheets are read as they were written. */
class SheetLinesTest {
    @TempDir private Path folder;

    /** A clock's name that a spreadsheet would calculate has an apostrophe in the sheet. */
    @Test
    void clocksAreFoundByTheirOwnNames() throws Exception {
        Path sheet = folder.resolve("sheet.csv");
        Files.writeString(
                sheet,
                "net,instrumentFast_ps,instrumentSlow_ps,lateCycles,lateClock\n"
                        + "n,100,200,2,'-clk\n");
        assertThat(SheetLines.read(sheet).mostCycles("-clk")).isEqualTo(2);
    }
}
