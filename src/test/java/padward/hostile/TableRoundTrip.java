package padward.hostile;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.format.design.Digest;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;

/** Tables that were read say the same when they are written and read again. */
final class TableRoundTrip {
    private TableRoundTrip() {}

    static void check(TableImport.Sound read, Path folder) throws BadInput {
        Design design = read.design().orElseThrow();
        TableExport.write(design, folder, false, Progress.NONE);
        TableImport.Result again = TableImport.read(folder, Optional.empty(), 5, Progress.NONE);
        if (again instanceof TableImport.Faulty faulty) {
            throw new AssertionError("what was written is refused", faulty.shown().get(0));
        }
        Design other = ((TableImport.Sound) again).design().orElseThrow();
        assertThat(Digest.of(other)).isEqualTo(Digest.of(design));
        assertThat(other.cells()).isEqualTo(design.cells());
        assertThat(other.nets()).isEqualTo(design.nets());
        assertThat(other.ports()).isEqualTo(design.ports());
        assertThat(other.board()).isEqualTo(design.board());
    }
}
