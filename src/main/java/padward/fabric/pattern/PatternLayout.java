package padward.fabric.pattern;

import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.fabric.Fabric;
import padward.fabric.FabricLimits;

/** Checks a pattern's grid, wires and areas, and gives each tile its type. */
final class PatternLayout {
    private PatternLayout() {}

    /** The index of each tile's type. */
    static int[] typeOfTiles(PatternSpec spec) throws PatternFault {
        checkSide("$.grid.columns", spec.columns());
        checkSide("$.grid.rows", spec.rows());
        checkWires(spec.wires());
        Map<String, Integer> typeByName = new HashMap<>();
        for (int i = 0; i < spec.tileTypes().size(); i++) {
            String name = spec.tileTypes().get(i).name();
            if (typeByName.put(name, i) != null) {
                throw new PatternFault(
                        "$.tiles[" + i + "].name", "a name used once", "“" + name + "” again");
            }
        }
        int[] result = new int[spec.columns() * spec.rows()];
        Arrays.fill(result, Fabric.NOTHING);
        for (int i = 0; i < spec.areas().size(); i++) {
            route(spec, spec.areas().get(i), "$.layout[" + i + "]", typeByName, result);
        }
        for (int tile = 0; tile < result.length; tile++) {
            if (result[tile] == Fabric.NOTHING) {
                throw new PatternFault(
                        "$.layout",
                        "areas that cover every tile",
                        "nothing at x" + tile % spec.columns() + "y" + tile / spec.columns());
            }
        }
        return result;
    }

    private static void checkSide(String place, int side) throws PatternFault {
        if (side < 1 || side > FabricLimits.GRID_SIDE) {
            throw new PatternFault(
                    place, "1 to " + FabricLimits.GRID_SIDE + " tiles", String.valueOf(side));
        }
    }

    private static void checkWires(List<PatternSpec.WireKind> wires) throws PatternFault {
        Set<String> names = new HashSet<>();
        for (int i = 0; i < wires.size(); i++) {
            if (!names.add(wires.get(i).name())) {
                throw new PatternFault(
                        "$.wires[" + i + "].name",
                        "a name used once",
                        "“" + wires.get(i).name() + "” again");
            }
            checkTaps(wires.get(i), "$.wires[" + i + "].taps");
        }
    }

    private static void checkTaps(PatternSpec.WireKind wire, String place) throws PatternFault {
        if (!wire.taps().isEmpty() && !wire.isAxial()) {
            throw new PatternFault(
                    place,
                    "taps only on wires along a row or a column",
                    "taps on a wire with step " + wire.dx() + "," + wire.dy());
        }
        int length = Math.abs(wire.dx() + wire.dy());
        int last = 0;
        for (int tap : wire.taps()) {
            if (tap <= last || tap >= length) {
                throw new PatternFault(
                        place,
                        "rising numbers of tiles from 1 to " + (length - 1),
                        wire.taps().toString());
            }
            last = tap;
        }
    }

    private static void route(
            PatternSpec spec,
            PatternSpec.Area area,
            String place,
            Map<String, Integer> typeByName,
            int[] result)
            throws PatternFault {
        Integer type = typeByName.get(area.tileType());
        if (type == null) {
            throw new PatternFault(
                    place + ".tile", "the name of a tile type", "“" + area.tileType() + "”");
        }
        checkRange(place + ".columns", area.fromColumn(), area.toColumn(), spec.columns());
        checkRange(place + ".rows", area.fromRow(), area.toRow(), spec.rows());
        if (area.everyColumns() < 1) {
            throw new PatternFault(
                    place + ".every", "1 or more", String.valueOf(area.everyColumns()));
        }
        for (int y = area.fromRow(); y <= area.toRow(); y++) {
            for (int x = area.fromColumn(); x <= area.toColumn(); x += area.everyColumns()) {
                result[y * spec.columns() + x] = type;
            }
        }
    }

    private static void checkRange(String place, int from, int to, int size) throws PatternFault {
        if (from < 0 || to < from || to >= size) {
            throw new PatternFault(
                    place, "[first, last] within 0 to " + (size - 1), "[" + from + ", " + to + "]");
        }
    }
}
