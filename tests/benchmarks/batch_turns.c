/* Turns of many machines, as the straightforward C loop: rows of bytes, machines side by side.

   Only this file is what the batch in numpy is compared with. It does whole turns at one carriage position with the
   same faults: pins gone and stuck out, carry pins, levers that do not catch or are not pushed home, lost teeth, wheels that
   overthrow, levers that creep, counter fingers, a stuck direction. Levers that come out late are not in it. Row 0 is
   place or wheel 1; a row holds one byte (pins and teeth: two) a machine. */

#include <stdint.h>
#include <string.h>

#define BLOCK 4096

#define ROWS 40

static const unsigned char none[BLOCK];
static int odd_ones[ROWS][BLOCK], many_odd[ROWS];      /* machines of a block that overthrow or have lost teeth there */
static int creeping[ROWS][BLOCK], many_creep[ROWS];    /* machines of a block whose lever creeps there */

typedef uint8_t u8;
typedef uint16_t u16;

typedef struct {
    long machines;
    int wheels, places, reach, counters, carriage, in_reach, counter_carry;
    u8 *result, *levers, *bell, *counter, *setting, *steps;      /* state; steps: how many number pins are out */
    u16 *pins;                                                   /* and which */
    int8_t *counts_up;                                           /* the counter's direction, 0 while free */
    const u8 *carry_pins, *catches, *homed, *over, *odd, *creeps, *fingers;  /* odd: overthrows, or has lost teeth */
    const u16 *pins_gone, *pins_out, *teeth;
    const int8_t *stuck;
} Machines;

/* One pin pushes: the digit after it, and whether the wheel passed between 9 and 0. */
static inline int push(int digit, int lets_go, int over, unsigned lost, int direction, int *passed)
{
    int tooth = direction > 0 ? digit : (18 - digit) % 10;
    if (lost >> tooth & 1)
        return digit;
    digit += 1 + (lets_go & over);
    *passed |= digit > 9;
    return digit > 9 ? digit - 10 : digit;
}

static void turn_block(const Machines *all, long low, int count, int direction)
{
    const long n = all->machines;
    static u8 carry[BLOCK], front[BLOCK], before[BLOCK], passed[BLOCK];
    const u8 *ahead = all->carry_pins + (direction > 0 ? 1 : 0) * (long)(all->reach + 1) * n + low;
    const u8 *behind = all->carry_pins + (direction > 0 ? 0 : 1) * (long)(all->reach + 1) * n + low;
    memset(carry, 0, count);
    memset(front, 0, count);
    for (int wheel = all->carriage; wheel < all->in_reach; wheel++) {
        int place = wheel - all->carriage + 1, set = place <= all->places;
        u8 *restrict result = all->result + wheel * n + low, *restrict levers = all->levers + wheel * n + low;
        const u8 *restrict catches = all->catches + wheel * n + low, *restrict homed = all->homed + wheel * n + low;
        const u8 *restrict over = all->over + wheel * n + low;
        const u16 *restrict teeth = all->teeth + (place - 1) * n + low;
        const u16 *restrict pins = all->pins + (place - 1) * n + low;
        const u8 *restrict steps = set ? all->steps + (place - 1) * n + low : none;
#pragma GCC ivdep
        for (int i = 0; i < count; i++) {
            u8 digit = direction > 0 ? result[i] : 9 - result[i];
            before[i] = digit;
            digit += front[i];
            u8 first = digit > 9;
            digit -= first ? 10 : 0;
            digit += steps[i] + carry[i];
            u8 second = digit > 9;
            digit -= second ? 10 : 0;
            result[i] = digit;
            passed[i] = first | second;
        }
        for (int k = 0; k < many_odd[wheel]; k++) {
            int i = odd_ones[wheel][k];
            int digit = before[i], did = 0;
            if (front[i])
                digit = push(digit, 1, over[i], teeth[i], direction, &did);
            for (int at = 0; set && at < 9; at++) {
                int pin = direction > 0 ? at : 8 - at, next = pin + direction;
                if (pins[i] >> pin & 1)
                    digit = push(digit, next < 0 || next > 8 || !(pins[i] >> next & 1), over[i], teeth[i],
                                 direction, &did);
            }
            if (carry[i])
                digit = push(digit, 1, over[i], teeth[i], direction, &did);
            result[i] = digit;
            passed[i] = did;
        }
        u8 *restrict bell = all->bell + low;
        const u8 *restrict next_ahead = ahead + (place + 1) * n, *restrict next_behind = behind + (place + 1) * n;
        if (wheel < all->in_reach - 1)
#pragma GCC ivdep
            for (int i = 0; i < count; i++) {
                u8 left = levers[i];                             /* out from before: the pin in front is deflected */
                u8 now = (left & !homed[i]) | (passed[i] & catches[i]);
                front[i] = left & next_ahead[i];
                carry[i] = now & next_behind[i];
                levers[i] = now & !homed[i];
            }
        else
#pragma GCC ivdep
            for (int i = 0; i < count; i++) {
                u8 now = levers[i] | (passed[i] & catches[i]);
                bell[i] = now;
                levers[i] = now & !homed[i];
            }
        if (direction < 0)
            for (int i = 0; i < count; i++)
                result[i] = 9 - result[i];
    }
}

static void count_block(const Machines *all, long low, int count, int direction)
{
    const long n = all->machines;
    int8_t *restrict up = all->counts_up + low;
    const int8_t *restrict stuck = all->stuck + low;
    u8 *restrict units = all->counter + all->carriage * n + low;
    const u8 *restrict fingers = all->fingers + all->carriage * n + low;
#pragma GCC ivdep
    for (int i = 0; i < count; i++) {
        int8_t taken = stuck[i] ? stuck[i] : (int8_t)direction;
        up[i] = up[i] ? up[i] : taken;
        units[i] += fingers[i] ? (up[i] == direction ? 1 : 255) : 0;
    }
    for (int i = 0; i < count; i++)
        for (int wheel = all->carriage; all->counter[wheel * n + low + i] > 9; wheel++) {
            u8 *digit = all->counter + wheel * n + low + i;
            *digit = *digit == 10 ? 0 : 9;
            if (!all->counter_carry || wheel + 1 == all->counters || !all->fingers[(wheel + 1) * n + low + i])
                break;
            digit[n] += up[i] == direction ? 1 : 255;
        }
    for (int place = 0; place < all->places; place++)
        for (int k = 0; k < many_creep[place]; k++) {
            long at = place * n + low + creeping[place][k];
            if (all->setting[at]) {
                all->setting[at]--;
                all->pins[at] = (u16)((((1u << all->setting[at]) - 1) | all->pins_out[at]) & ~all->pins_gone[at]);
                all->steps[at] = (u8)__builtin_popcount(all->pins[at]);
            }
        }
}

static void list_block(const Machines *all, long low, int count)
{
    for (int wheel = all->carriage; wheel < all->in_reach; wheel++) {
        many_odd[wheel] = 0;
        for (int i = 0; i < count; i++)
            if (all->odd[wheel * all->machines + low + i])
                odd_ones[wheel][many_odd[wheel]++] = i;
    }
    for (int place = 0; place < all->places; place++) {
        many_creep[place] = 0;
        for (int i = 0; i < count; i++)
            if (all->creeps[place * all->machines + low + i])
                creeping[place][many_creep[place]++] = i;
    }
}

void turns(const Machines *all, const int8_t *directions, int many)
{
    for (long low = 0; low < all->machines; low += BLOCK) {
        int count = (int)(all->machines - low < BLOCK ? all->machines - low : BLOCK);
        list_block(all, low, count);
        for (int turn = 0; turn < many; turn++) {
            turn_block(all, low, count, directions[turn]);
            count_block(all, low, count, directions[turn]);
        }
    }
}
