package padward.fabric;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

/** What a fabric says about its kinds of cells. */
class FabricInfoTest {
    /** Nothing is said of an unknown kind, so that it is no register, but can be one. */
    @Test
    void anUnknownKindCanHoldStateButIsNotSaidTo() {
        FabricInfo info =
                new FabricInfo(
                        "larch",
                        "",
                        List.of(new CellKind("keep", true), new CellKind("look", false)),
                        List.of(),
                        List.of());
        assertThat(List.of("keep", "look", "other"))
                .filteredOn(info::holdsState)
                .containsExactly("keep");
        assertThat(List.of("keep", "look", "other"))
                .filteredOn(info::canHoldState)
                .containsExactly("keep", "other");
    }
}
