package padward.format.tables;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import padward.fabric.pad.PadDirections;
import padward.format.bsdl.PackagePins;
import padward.format.json.EnumWords;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;

/**
 * Fills the empty fields of the pad table from the pins of a package, and compares the others. A
 * pad's port is the one that its row names, that of the pad's full name, that of the last part of
 * it, or that of its package pin.
 */
final class PadPins {
    private final CsvTable table;
    private final Optional<PackagePins> pins;
    private final Map<String, PackagePins.Pin> byPort;
    private final Map<String, PackagePins.Pin> byPin;
    private final CsvTable.Column port;
    private final CsvTable.Column packagePin;
    private final CsvTable.Column directions;
    private int matched;

    PadPins(CsvTable table, Optional<PackagePins> pins) {
        this.table = table;
        this.pins = pins;
        this.byPort = pins.map(PackagePins::byPort).orElse(Map.of());
        this.byPin = pins.map(PackagePins::byPin).orElse(Map.of());
        this.port = table.column("bsdl_port");
        this.packagePin = table.column("package_pin");
        this.directions = table.column("directions");
    }

    /** The pin of a row's pad, as far as the file states it; differences are reported. */
    Optional<PackagePins.Pin> find(String pad) {
        if (pins.isEmpty()) {
            return Optional.empty();
        }
        Optional<PackagePins.Pin> found = look(pad);
        if (found.isEmpty()) {
            return found;
        }
        matched++;
        PackagePins.Pin pin = found.get();
        if (pin.mode().directions().isEmpty()) {
            table.fault(
                    table.has(port) ? port : packagePin,
                    "a port with a signal",
                    () -> Text.quote(pin.port()) + ", which is of mode linkage");
            return Optional.empty();
        }
        if (table.has(packagePin) && !table.text(packagePin).equals(pin.pin())) {
            String stated = table.text(packagePin);
            table.fault(
                    packagePin,
                    "pin " + pin.pin() + ", as " + pins.get().file() + " has it",
                    () -> Text.quote(stated));
        }
        return found;
    }

    private Optional<PackagePins.Pin> look(String pad) {
        if (table.has(port)) {
            String name = table.text(port);
            PackagePins.Pin pin = byPort.get(name.toLowerCase(Locale.ROOT));
            if (pin == null) {
                table.fault(
                        port,
                        "a port of entity " + pins.get().entity(),
                        () -> Nearest.describe(name, byPort.keySet().stream()));
            }
            return Optional.ofNullable(pin);
        }
        String name = pad.toLowerCase(Locale.ROOT);
        PackagePins.Pin pin = byPort.get(name);
        if (pin == null) {
            pin = byPort.get(name.substring(name.lastIndexOf('/') + 1));
        }
        if (pin == null && table.has(packagePin)) {
            String stated = table.text(packagePin);
            pin = byPin.get(stated);
            if (pin == null) {
                table.fault(
                        packagePin,
                        "a pin that " + pins.get().file() + " has",
                        () -> Nearest.describe(stated, byPin.keySet().stream()));
            }
        }
        return Optional.ofNullable(pin);
    }

    /** The package pin of a pad whose row states none. */
    String pin(Optional<PackagePins.Pin> known) {
        return known.map(PackagePins.Pin::pin).orElse("");
    }

    /** The directions that a row states, which must be among those of the port, or the port's. */
    PadDirections directions(Optional<PackagePins.Pin> known, PadDirections stated) {
        if (known.isEmpty()) {
            return stated;
        }
        PadDirections own = known.get().mode().directions().orElseThrow();
        if (!table.has(directions)) {
            return own;
        }
        if (own != PadDirections.BOTH && stated != own) {
            table.fault(
                    directions,
                    EnumWords.of(own)
                            + ", as port "
                            + known.get().port()
                            + " is of mode "
                            + known.get().mode().label(),
                    () -> EnumWords.of(stated));
        }
        return stated;
    }

    /** To be called after the last row. */
    void finish() {
        if (pins.isPresent() && matched == 0) {
            table.fault(
                    1,
                    port.name(),
                    "pads that are ports of " + pins.get().file(),
                    () -> "none; a column bsdl_port can name them");
        }
    }
}
