package padward.filework;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;

/** Deskewing a large capture reports how far it is, and can be stopped. */
class SheetDeskewTest {
    @TempDir private Path folder;

    /** Keeps what was reported, and stops at a share. */
    private static final class Kept implements Progress {
        private final double stopsAt;
        private double share;
        private String message = "";

        Kept(double stopsAt) {
            this.stopsAt = stopsAt;
        }

        @Override
        public void report(double fraction, String doing) {
            assertThat(fraction).isBetween(share, 1.0);
            share = fraction;
            message = doing;
        }

        @Override
        public boolean cancelled() {
            return share >= stopsAt;
        }
    }

    private Path capture() throws Exception {
        StringBuilder text =
                new StringBuilder(
                        "$timescale 1 ps $end\n$var wire 1 ! n $end\n$enddefinitions $end\n");
        for (int i = 0; i < 40_000; i++) {
            text.append('#').append(100L * i).append('\n').append(i % 2).append("!\n");
        }
        return Files.writeString(folder.resolve("in.vcd"), text);
    }

    private SheetDeskew deskew() throws Exception {
        Path sheet = folder.resolve("sheet.csv");
        Files.writeString(sheet, "net,instrumentFast_ps,instrumentSlow_ps\nn,100,200\n");
        return new SheetDeskew(sheet, Map.of(), 0, Map.of(), false, 5, 0);
    }

    @Test
    void progressGoesToTheEnd() throws Exception {
        Kept progress = new Kept(2);
        SheetDeskew.Result result = deskew().write(capture(), folder.resolve("out.vcd"), progress);
        assertThat(progress.share).isEqualTo(1);
        assertThat(progress.message).isEqualTo("reading in.vcd");
        assertThat(result.counts()).isEqualTo("1 of 1 channel");
    }

    @Test
    void stoppingLeavesTheOldFile() throws Exception {
        Path out = Files.writeString(folder.resolve("out.vcd"), "as it was");
        Path in = capture();
        SheetDeskew deskew = deskew();
        assertThrows(CancellationException.class, () -> deskew.write(in, out, new Kept(0.3)));
        assertThat(out).hasContent("as it was");
        try (var files = Files.list(folder)) {
            assertThat(files).as("nothing is left beside it").hasSize(3);
        }
    }
}
