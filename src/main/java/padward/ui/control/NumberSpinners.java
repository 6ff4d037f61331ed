package padward.ui.control;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import javafx.beans.property.ObjectProperty;
import javafx.geometry.Bounds;
import javafx.scene.control.Spinner;
import javafx.scene.control.SpinnerValueFactory;
import javafx.scene.control.Tooltip;
import javafx.util.StringConverter;
import padward.base.Decimals;

/**
 * Fields for numbers that can also be typed. What is not a number is replaced by the number before,
 * and the field says what it expected; numbers are written alike in every locale, and a comma is
 * read as everywhere in the program ({@link Decimals}).
 */
public final class NumberSpinners {
    private NumberSpinners() {}

    /** A field for a whole number. */
    public static Spinner<Integer> whole(int least, int most, int first, int step) {
        return typed(
                new Spinner<>(least, most, first, step),
                text -> Decimals.typed(text).map(BigDecimal::intValueExact),
                number -> Integer.toString(number));
    }

    /** A field for a number, which is shown with one decimal, or more if it has more. */
    public static Spinner<Double> decimal(double least, double most, double first, double step) {
        return typed(
                new Spinner<>(least, most, first, step),
                text -> Decimals.typed(text).map(BigDecimal::doubleValue),
                NumberSpinners::text);
    }

    /** The field shows a value, and changes it. */
    public static void bind(Spinner<Double> spinner, ObjectProperty<Double> value) {
        spinner.getValueFactory().valueProperty().bindBidirectional(value);
    }

    private static String text(double number) {
        String few = String.format(Locale.ROOT, "%.1f", number);
        return Double.parseDouble(few) == number ? few : Double.toString(number);
    }

    private static <T> Spinner<T> typed(
            Spinner<T> spinner, Function<String, Optional<T>> read, Function<T, String> write) {
        spinner.setEditable(true);
        SpinnerValueFactory<T> values = spinner.getValueFactory();
        values.setConverter(
                new StringConverter<>() {
                    @Override
                    public String toString(T number) {
                        return Optional.ofNullable(number).map(write).orElse("");
                    }

                    @Override
                    public T fromString(String text) {
                        Optional<T> number = read(text);
                        if (number.isEmpty()) {
                            // Shown again, so that nobody takes the text for the number.
                            spinner.getEditor().setText(toString(values.getValue()));
                            tell(spinner, fault(text));
                        }
                        return number.orElseGet(values::getValue);
                    }

                    private Optional<T> read(String text) {
                        try {
                            return read.apply(text);
                        } catch (ArithmeticException notWhole) {
                            return Optional.empty();
                        }
                    }
                });
        spinner.getEditor().setText(values.getConverter().toString(values.getValue()));
        return spinner;
    }

    /** What is wrong with a text that is no number, as a sentence. */
    static String fault(String text) {
        String expected = Decimals.mayMeanThousands(text) ? Decimals.POINT : "a number";
        return "Expected " + expected + ", found “" + text.strip() + "”.";
    }

    /** Shows a sentence below a field until the next key or click. */
    private static void tell(Spinner<?> spinner, String sentence) {
        Bounds field = spinner.localToScreen(spinner.getBoundsInLocal());
        if (field != null) {
            Tooltip tip = new Tooltip(sentence);
            tip.setAutoHide(true);
            tip.show(spinner, field.getMinX(), field.getMaxY());
        }
    }
}
