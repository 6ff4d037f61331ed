package padward.unblock.move;

import java.util.List;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Terminal;
import padward.fabric.SiteView;

/** Where the ends of a net are, or will be once a cell has moved. */
interface NetEnds {
    /** The vertex of a pin or pad. */
    int vertexOf(Terminal terminal);

    /** The same once ends have gone to other pins that are alike. */
    static NetEnds swapped(Design design, NetEnds ends, List<Edit.PinSwap> swaps) {
        return end -> {
            int vertex = ends.vertexOf(end);
            if (!(end instanceof Terminal.CellPin at)) {
                return vertex;
            }
            String cell = design.cells().get(at.cell()).name();
            return swaps.stream()
                    .filter(s -> s.cell().equals(cell) && s.pin().equals(at.pin()))
                    .mapToInt(
                            s ->
                                    design.fabric()
                                            .site(design.fabric().siteOf(vertex))
                                            .findPin(s.with()))
                    .findFirst()
                    .orElse(vertex);
        };
    }

    /** Where ends are once a cell stands on another site. */
    static NetEnds relocated(Design design, Edit.RelocateCell edit) {
        SiteView to = design.fabric().site(design.fabric().findSite(edit.site()));
        return end ->
                end instanceof Terminal.CellPin at
                                && design.cells().get(at.cell()).name().equals(edit.cell())
                        ? to.findPin(at.pin())
                        : design.vertexOf(end);
    }
}
