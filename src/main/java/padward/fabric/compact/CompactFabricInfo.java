package padward.fabric.compact;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.DoubleRateRegister;
import padward.fabric.FabricInfo;
import padward.fabric.delay.AtCorners;
import padward.fabric.delay.Delay;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.EdgeDelays;
import padward.fabric.pad.Electrical;
import padward.fabric.pad.PadDriverOutput;

/** What a fabric says of itself apart from its graph, in a compact copy. */
public final class CompactFabricInfo {
    private CompactFabricInfo() {}

    /** Writes it. */
    public static void write(CompactOut out, FabricInfo info) throws IOException {
        out.text(info.name());
        out.text(info.note());
        out.list(info.cellKinds(), kind -> writeKind(out, kind));
        out.list(info.settings(), setting -> writeSetting(out, setting));
        out.list(
                info.banks(),
                bank -> {
                    out.text(bank.name());
                    out.number(bank.millivolts());
                });
        out.list(
                info.electrical().wires(),
                wire -> {
                    out.text(wire.wire());
                    corners(out, wire.ohms());
                    corners(out, wire.femtofarads());
                });
        out.list(
                info.electrical().switches(),
                one -> {
                    out.text(one.from());
                    out.text(one.to());
                    out.flag(one.buffered());
                    corners(out, one.ohms());
                    corners(out, one.femtofarads());
                });
    }

    /** Reads it. */
    public static FabricInfo read(CompactIn in) throws IOException {
        return new FabricInfo(
                in.text(),
                in.text(),
                in.list(() -> readKind(in)),
                in.list(() -> readSetting(in)),
                in.list(() -> new Bank(in.text(), in.number())),
                new Electrical(
                        in.list(() -> new Electrical.WireLoad(in.text(), corners(in), corners(in))),
                        in.list(
                                () ->
                                        new Electrical.SwitchLoad(
                                                in.text(),
                                                in.text(),
                                                in.flag(),
                                                corners(in),
                                                corners(in)))));
    }

    private static void writeKind(CompactOut out, CellKind kind) throws IOException {
        out.text(kind.name());
        out.flag(kind.holdsState());
        out.optional(kind.lookupTable(), table -> writeTable(out, table));
        out.optional(kind.register(), register -> writeRegister(out, register));
        out.optional(kind.doubleRate(), register -> writeDoubleRate(out, register));
    }

    private static CellKind readKind(CompactIn in) throws IOException {
        return new CellKind(
                in.text(),
                in.flag(),
                in.flag() ? Optional.of(readTable(in)) : Optional.empty(),
                in.flag() ? Optional.of(readRegister(in)) : Optional.empty(),
                in.flag() ? Optional.of(readDoubleRate(in)) : Optional.empty());
    }

    private static void writeDoubleRate(CompactOut out, DoubleRateRegister register)
            throws IOException {
        out.text(register.rising());
        out.text(register.falling());
        out.text(register.clock());
        out.text(register.output());
        out.optional(register.risingSetting(), out::text);
        out.optional(register.fallingSetting(), out::text);
        out.optional(register.clockToOutput(), delay -> write(out, delay));
    }

    private static DoubleRateRegister readDoubleRate(CompactIn in) throws IOException {
        return new DoubleRateRegister(
                in.text(),
                in.text(),
                in.text(),
                in.text(),
                in.optionalText(),
                in.optionalText(),
                readOptionalDelay(in));
    }

    private static void writeTable(CompactOut out, CellFunction.LookupTable table)
            throws IOException {
        out.list(table.inputs(), out::text);
        out.text(table.output());
        out.text(table.setting());
        out.constant(table.digits());
        out.text(table.prefix());
    }

    private static CellFunction.LookupTable readTable(CompactIn in) throws IOException {
        List<String> inputs = in.textList();
        return new CellFunction.LookupTable(
                inputs, in.text(), in.text(), in.constant(CellFunction.Digits.class), in.text());
    }

    private static void writeRegister(CompactOut out, CellFunction.Register register)
            throws IOException {
        out.text(register.data());
        out.text(register.clock());
        out.text(register.output());
        out.optional(register.enable(), out::text);
        out.optional(register.reset(), out::text);
        out.constant(register.initial());
        out.optional(register.initialSetting(), out::text);
        out.optional(register.clockToOutput(), delay -> write(out, delay));
        out.optional(register.setup(), delay -> write(out, delay));
        out.optional(register.hold(), delay -> write(out, delay));
    }

    private static CellFunction.Register readRegister(CompactIn in) throws IOException {
        return new CellFunction.Register(
                in.text(),
                in.text(),
                in.text(),
                in.optionalText(),
                in.optionalText(),
                in.constant(CellFunction.Initial.class),
                in.optionalText(),
                readOptionalDelay(in),
                readOptionalDelay(in),
                readOptionalDelay(in));
    }

    private static void writeSetting(CompactOut out, DriverSetting setting) throws IOException {
        out.text(setting.name());
        out.text(setting.standard());
        out.number(setting.millivolts());
        out.number(setting.milliamps());
        out.text(setting.slew());
        write(out, setting.delay());
        out.optional(
                setting.output(),
                driver -> {
                    out.fraction(driver.ratedPf());
                    write(out, driver.rise());
                    corners(out, driver.ohms());
                    out.number(driver.mostMhz());
                });
        out.flag(setting.differential());
        out.optional(
                setting.edges(),
                edges -> {
                    write(out, edges.toHigh());
                    write(out, edges.toLow());
                });
    }

    private static DriverSetting readSetting(CompactIn in) throws IOException {
        return new DriverSetting(
                in.text(),
                in.text(),
                in.number(),
                in.number(),
                in.text(),
                readDelay(in),
                in.flag() ? Optional.of(readOutput(in)) : Optional.empty(),
                in.flag(),
                in.flag()
                        ? Optional.of(new EdgeDelays(readDelay(in), readDelay(in)))
                        : Optional.empty());
    }

    private static PadDriverOutput readOutput(CompactIn in) throws IOException {
        return new PadDriverOutput(in.fraction(), readDelay(in), corners(in), in.number());
    }

    /** Writes a delay. */
    static void write(CompactOut out, Delay delay) throws IOException {
        out.number(delay.fastPs());
        out.number(delay.slowPs());
    }

    /** Reads a delay. */
    static Delay readDelay(CompactIn in) throws IOException {
        int fast = in.number(0, Integer.MAX_VALUE);
        return new Delay(fast, in.number(fast, Integer.MAX_VALUE));
    }

    private static Optional<Delay> readOptionalDelay(CompactIn in) throws IOException {
        return in.flag() ? Optional.of(readDelay(in)) : Optional.empty();
    }

    private static void corners(CompactOut out, AtCorners value) throws IOException {
        out.number(value.fast());
        out.number(value.slow());
    }

    private static AtCorners corners(CompactIn in) throws IOException {
        int fast = in.number(0, Integer.MAX_VALUE);
        return new AtCorners(fast, in.number(fast, Integer.MAX_VALUE));
    }
}
