//! The lattices: how many points, and how far each axis moves from point to point, in points.
//!
//! Searched for here, axis by axis: each multiplier has, beside those before it, the least worst-case error in the
//! weighted Korobov space of smoothness 2 with weight 0.01 on every axis, so that pairs of axes count most and
//! none more than another. Source of the rule: Sloan, Kuo and Joe 2002, SIAM J. Numerical Analysis 40:1650-1665
//! (component by component; citation from memory, unverified).

/// Axes with a multiplier of their own.
pub(super) const AXES: usize = 60;

/// One lattice.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Lattice {
    /// How many points, a prime.
    pub(crate) points: u32,
    /// The step of each axis, in points.
    pub(super) multipliers: [u32; AXES],
}

/// Each about twice as large as the one before.
pub(crate) const LATTICES: [Lattice; 7] = [
    Lattice {
        points: 127,
        multipliers: [
            1, 29, 35, 56, 24, 50, 37, 33, 17, 20, 19, 44, 62, 43, 26, 9, 14, 16, 6, 60, 21, 4, 11, 36, 23,
            5, 38, 31, 45, 25, 39, 40, 32, 30, 27, 13, 34, 18, 61, 58, 41, 2, 46, 3, 7, 48, 15, 53, 57, 55,
            47, 49, 63, 54, 51, 42, 12, 22, 28, 10,
        ],
    },
    Lattice {
        points: 251,
        multipliers: [
            1, 70, 97, 55, 61, 119, 32, 92, 121, 90, 21, 85, 72, 88, 100, 59, 6, 28, 76, 47, 80, 43, 39, 5,
            54, 34, 58, 60, 105, 69, 37, 62, 52, 87, 79, 8, 114, 48, 33, 101, 22, 15, 125, 19, 89, 7, 103,
            53, 83, 25, 20, 9, 17, 108, 31, 12, 115, 112, 41, 26,
        ],
    },
    Lattice {
        points: 509,
        multipliers: [
            1, 151, 116, 215, 111, 188, 48, 100, 238, 93, 70, 61, 217, 36, 198, 53, 148, 30, 223, 38, 13,
            128, 59, 27, 42, 184, 182, 202, 171, 117, 44, 51, 197, 68, 62, 139, 221, 7, 206, 173, 189, 211,
            214, 130, 5, 246, 69, 235, 45, 191, 165, 120, 166, 245, 77, 71, 89, 16, 187, 41,
        ],
    },
    Lattice {
        points: 1021,
        multipliers: [
            1, 374, 220, 421, 449, 482, 193, 382, 72, 328, 152, 488, 350, 356, 418, 258, 208, 452, 119, 438,
            212, 196, 306, 235, 252, 396, 338, 362, 192, 283, 97, 399, 372, 422, 156, 159, 149, 174, 54, 21,
            508, 430, 489, 224, 35, 419, 268, 437, 346, 310, 272, 168, 495, 471, 69, 412, 85, 30, 137, 494,
        ],
    },
    Lattice {
        points: 2039,
        multipliers: [
            1, 462, 608, 796, 562, 359, 595, 310, 219, 854, 279, 991, 727, 75, 540, 664, 546, 812, 92, 206,
            479, 591, 173, 938, 701, 970, 699, 299, 809, 344, 925, 851, 24, 707, 212, 744, 157, 377, 117, 88,
            599, 862, 773, 411, 208, 686, 729, 881, 932, 672, 564, 338, 678, 740, 885, 647, 241, 864, 825,
            143,
        ],
    },
    Lattice {
        points: 4093,
        multipliers: [
            1, 1210, 1555, 1429, 1595, 1510, 736, 1925, 665, 882, 208, 1159, 1693, 1576, 1950, 509, 1048,
            289, 340, 433, 621, 1745, 1064, 1097, 234, 426, 1977, 2016, 789, 1968, 833, 57, 134, 823, 637,
            1082, 189, 172, 897, 159, 364, 816, 1814, 410, 1333, 559, 1225, 1856, 1148, 1674, 1343, 1533,
            862, 1408, 916, 1751, 1201, 1570, 107, 1933,
        ],
    },
    Lattice {
        points: 8191,
        multipliers: [
            1, 2431, 1761, 2596, 3921, 3380, 1264, 2845, 3417, 2934, 1723, 2815, 464, 2084, 2612, 1629, 2871,
            2022, 3225, 2681, 325, 2777, 3508, 952, 3975, 3884, 1163, 4000, 3093, 2305, 107, 1494, 570, 2171,
            2510, 3114, 1651, 2551, 1686, 3266, 1179, 3143, 973, 189, 146, 1924, 3544, 1669, 903, 1780, 1897,
            4007, 3478, 313, 351, 2471, 2545, 2521, 1026, 133,
        ],
    },
];
