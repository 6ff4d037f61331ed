package padward.format.fabric;

import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.delayInTwoColumns;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.names;
import static padward.format.form.Kinds.newName;
import static padward.format.form.Kinds.word;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.base.BadInput;
import padward.fabric.CellFunction;
import padward.fabric.CellFunction.Digits;
import padward.fabric.CellFunction.Initial;
import padward.fabric.CellFunction.LookupTable;
import padward.fabric.CellFunction.Register;
import padward.fabric.CellKind;
import padward.fabric.DoubleRateRegister;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kinds;
import padward.format.json.JsonIn;
import padward.format.json.Names;
import padward.format.source.Text;

/** The forms of kinds of cell, with what they do, in files and in tables. */
public final class CellKindForms {
    private CellKindForms() {}

    /** A kind of cell; {@link #faultOf} says what does not go together in it. */
    public static Form<CellKind> kind(Names kinds) {
        var kind = new Fields<CellKind>();
        var name = kind.needed("name", newName(kinds), CellKind::name).means("name of the kind");
        var holdsState =
                kind.stated("holdsState", flag(), false, CellKind::holdsState)
                        .means(
                                "whether signals end there for timing, as at registers and memories;"
                                        + " otherwise not");
        var table =
                kind.optional(
                                "lookupTable",
                                Kinds.present(lookupTable()),
                                Optional.empty(),
                                CellKind::lookupTable)
                        .means("if it is a lookup table, its pins and how its contents are stated");
        var register =
                kind.optional(
                                "register",
                                Kinds.present(register()),
                                Optional.empty(),
                                CellKind::register)
                        .means("if it is a register, its pins and times");
        var doubleRate =
                kind.optional(
                                "doubleRateRegister",
                                Kinds.present(doubleRate()),
                                Optional.empty(),
                                CellKind::doubleRate)
                        .means(
                                "if it is a register that drives at both edges of its clock, its pins");
        return kind.makes(
                () ->
                        new CellKind(
                                name.get(),
                                holdsState.get(),
                                table.get(),
                                register.get(),
                                doubleRate.get()));
    }

    /**
     * What does not go together in a kind of cell.
     *
     * @param column the column of a table at which it shows
     * @param expected what was expected
     * @param found what stands there
     */
    public record Fault(String column, String expected, String found) {}

    /** What does not go together in a kind of cell, if anything. */
    public static Optional<Fault> faultOf(CellKind kind) {
        if (kind.lookupTable().isPresent() && kind.register().isPresent()) {
            return fault("register_data", "a lookup table or a register", "both");
        }
        if (kind.doubleRate().isPresent() && kind.function().isPresent()) {
            return fault("double_rising", "one of lookup table and both sorts of register", "two");
        }
        if (kind.doubleRate().isPresent() && !kind.holdsState()) {
            return fault("holds_state", "that a register holds state", "that it does not");
        }
        int inputs = kind.lookupTable().map(t -> t.inputs().size()).orElse(1);
        if (inputs < 1 || inputs > CellFunction.MOST_INPUTS) {
            return fault(
                    "table_inputs",
                    "1 to " + CellFunction.MOST_INPUTS + " input pins",
                    "" + inputs);
        }
        if (kind.register().isPresent() && !kind.holdsState()) {
            return fault("holds_state", "that a register holds state", "that it does not");
        }
        if (kind.lookupTable().isPresent() && kind.holdsState()) {
            return fault("holds_state", "that a lookup table holds no state", "that it does");
        }
        Optional<Fault> table =
                kind.lookupTable().flatMap(t -> doubledPin(t.pins(), "table_inputs"));
        return table.or(() -> kind.register().flatMap(r -> doubledPin(r.pins(), "register_data")))
                .or(() -> kind.doubleRate().flatMap(r -> doubledPin(r.pins(), "double_rising")))
                .or(() -> kind.doubleRate().flatMap(CellKindForms::doubledSetting));
    }

    private static Optional<Fault> doubledPin(List<String> pins, String column) {
        Set<String> seen = new HashSet<>();
        for (String pin : pins) {
            if (!seen.add(pin)) {
                return fault(column, "each pin once", Text.quote(pin) + " again");
            }
        }
        return Optional.empty();
    }

    private static Optional<Fault> doubledSetting(DoubleRateRegister register) {
        boolean same =
                register.risingSetting().isPresent()
                        && register.risingSetting().equals(register.fallingSetting());
        return same
                ? fault(
                        "double_falling_setting",
                        "a setting of its own for each data pin",
                        Text.quote(register.risingSetting().get()) + " again")
                : Optional.empty();
    }

    private static Optional<Fault> fault(String column, String expected, String found) {
        return Optional.of(new Fault(column, expected, found));
    }

    /** Refuses a kind of cell that was just read and does not go together. */
    static void check(JsonIn in, CellKind kind) throws BadInput {
        Optional<Fault> fault = faultOf(kind);
        if (fault.isPresent()) {
            throw in.fault(fault.get().expected(), fault.get().found());
        }
    }

    private static Form<LookupTable> lookupTable() {
        var table = new Fields<LookupTable>();
        var inputs =
                table.needed("inputs", names(), LookupTable::inputs)
                        .means("its `in` pins; the first is bit 0 of a row's number")
                        .column("table_inputs");
        var output =
                table.needed("output", name(), LookupTable::output)
                        .means("its `out` pin")
                        .column("table_output");
        var setting =
                table.needed("setting", name(), LookupTable::setting)
                        .means("the cell's setting that states the table's contents, all rows")
                        .column("table_setting");
        var digits =
                table.stated("digits", choice(Digits.values()), Digits.BINARY, LookupTable::digits)
                        .means(
                                "`binary`: a digit for each row, row 0 on the right; `hexadecimal`:"
                                        + " the same number, a digit for every four rows; otherwise"
                                        + " `binary`")
                        .column("table_digits");
        var prefix =
                table.optional("prefix", word(), "", LookupTable::prefix)
                        .means("text before the digits, `16'h` for example; otherwise none")
                        .column("table_prefix");
        return table.makes(
                () ->
                        new LookupTable(
                                inputs.get(),
                                output.get(),
                                setting.get(),
                                digits.get(),
                                prefix.get()));
    }

    private static Form<DoubleRateRegister> doubleRate() {
        var register = new Fields<DoubleRateRegister>();
        var rising =
                register.needed("rising", name(), DoubleRateRegister::rising)
                        .means("the data pin whose level it shows after a rising edge")
                        .column("double_rising");
        var falling =
                register.needed("falling", name(), DoubleRateRegister::falling)
                        .means("the data pin whose level it shows after a falling edge")
                        .column("double_falling");
        var clock =
                register.needed("clock", name(), DoubleRateRegister::clock)
                        .means("its clock pin")
                        .column("double_clock");
        var output =
                register.needed("output", name(), DoubleRateRegister::output)
                        .means("its `out` pin")
                        .column("double_output");
        var risingSetting =
                register.maybe("risingSetting", name(), DoubleRateRegister::risingSetting)
                        .means(
                                "the cell's setting, `0` or `1`, that is the level of `rising` while"
                                        + " nothing is connected there")
                        .column("double_rising_setting");
        var fallingSetting =
                register.maybe("fallingSetting", name(), DoubleRateRegister::fallingSetting)
                        .means("the same for `falling`")
                        .column("double_falling_setting");
        var clockToOutput =
                register.maybe(
                                "doubleClockToOutput_ps",
                                delayInTwoColumns(),
                                DoubleRateRegister::clockToOutput)
                        .means(
                                "where known, the delay from its clock to its output, of either edge");
        return register.makes(
                () ->
                        new DoubleRateRegister(
                                rising.get(),
                                falling.get(),
                                clock.get(),
                                output.get(),
                                risingSetting.get(),
                                fallingSetting.get(),
                                clockToOutput.get()));
    }

    private static Form<Register> register() {
        var register = new Fields<Register>();
        var data =
                register.needed("data", name(), Register::data)
                        .means("its data pin")
                        .column("register_data");
        var clock =
                register.needed("clock", name(), Register::clock)
                        .means("its clock pin; it takes its data at each rising edge")
                        .column("register_clock");
        var output =
                register.needed("output", name(), Register::output)
                        .means("its `out` pin")
                        .column("register_output");
        var enable =
                register.maybe("enable", name(), Register::enable)
                        .means(
                                "pin that must be high for it to take its data; while nothing is"
                                        + " connected there it takes it")
                        .column("register_enable");
        var reset =
                register.maybe("reset", name(), Register::reset)
                        .means(
                                "pin that, while high, makes it low at the clock's edge whatever"
                                        + " its enable is; without effect while nothing is connected"
                                        + " there")
                        .column("register_reset");
        var initial =
                register.optional(
                                "initial",
                                choice(Initial.values()),
                                Initial.UNKNOWN,
                                Register::initial)
                        .means("its value when the device starts; otherwise `unknown`")
                        .column("register_initial");
        var initialSetting =
                register.maybe("initialSetting", name(), Register::initialSetting)
                        .means("the cell's setting, `0` or `1`, that gives it another")
                        .column("register_initial_setting");
        var clockToOutput =
                register.maybe("clockToOutput_ps", delayInTwoColumns(), Register::clockToOutput)
                        .means("where known, the delay from its clock to its output");
        var setup =
                register.maybe("setup_ps", delayInTwoColumns(), Register::setup)
                        .means(
                                "where known, how long its data must be stable before the clock's"
                                        + " edge");
        var hold =
                register.maybe("hold_ps", delayInTwoColumns(), Register::hold)
                        .means(
                                "where known, how long its data must be stable after the clock's"
                                        + " edge");
        return register.makes(
                () ->
                        new Register(
                                data.get(),
                                clock.get(),
                                output.get(),
                                enable.get(),
                                reset.get(),
                                initial.get(),
                                initialSetting.get(),
                                clockToOutput.get(),
                                setup.get(),
                                hold.get()));
    }
}
