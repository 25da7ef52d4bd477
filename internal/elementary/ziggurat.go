package elementary

import "math"

// Where the tail begins, and the area of every layer: 256 layers as in Doornik,
// An Improved Ziggurat Method to Generate Normal Random Samples, 2005.
const (
	zigguratTail = 3.65415288536100877164542972035
	zigguratArea = 0.00492867323397465534736177540234
)

// Float64 returns a random number above 0 and below 1: one of the 2^52
// midpoints between multiples of 2^-52, each with the same chance.
func (s *Stream) Float64() float64 {
	return midpoint(s.Uint64())
}

// midpoint maps 64 bits to (k + 1/2) 2^-52, exactly.
func midpoint(bits uint64) float64 {
	return float64(float64(int64(bits>>12))*0x1p-52) + 0x1p-53
}

// Normal returns a random number of the standard normal distribution by the
// ziggurat method (Marsaglia and Tsang 2000), in which a draw and its layer use
// different bits (Doornik 2005).
func (s *Stream) Normal() float64 {
	for {
		bits := s.Uint64()
		outer, inner := zigguratLayer(uint8(bits))
		z := float64(float64(float64(int64(bits)>>11)*0x1p-52) * outer)
		if math.Abs(z) < inner {
			return z
		}
		if uint8(bits) == 0 {
			return math.Copysign(s.normalBeyond(), z)
		}
		if s.underCurve(z, outer, inner) {
			return z
		}
	}
}

// FillNormal sets every element of z to a number of the standard normal
// distribution, the same ones as len(z) calls of Normal.
func (s *Stream) FillNormal(z []float64) {
	for i := range z {
		z[i] = s.Normal()
	}
}

// underCurve draws a height within the layer and says whether the point (z,
// height) lies under the density.
func (s *Stream) underCurve(z, outer, inner float64) bool {
	low, high := Exp(float64(-0.5*float64(outer*outer))), Exp(float64(-0.5*float64(inner*inner)))
	height := low + float64(s.Float64()*(high-low))
	return height < Exp(float64(-0.5*float64(z*z)))
}

// normalBeyond returns a number of the tail beyond zigguratTail (Marsaglia,
// Technometrics 6, 1964).
func (s *Stream) normalBeyond() float64 {
	for {
		x := -Log(s.Float64()) / zigguratTail
		y := -Log(s.Float64())
		if y+y > float64(x*x) {
			return zigguratTail + x
		}
	}
}

// zigguratLayer returns the outer and the inner half-width of a layer, from the
// base, whose outer one stands for an area that includes the tail, to the top.
func zigguratLayer(i uint8) (outer, inner float64) {
	layer := [...]struct{ outer, inner float64 }{
		{0x1.f493b7815d982p+1, 0x1.d3bb48209ad33p+1}, {0x1.d3bb48209ad33p+1, 0x1.b981f3878fdb0p+1}, {0x1.b981f3878fdb0p+1, 0x1.a8fdc78947759p+1}, {0x1.a8fdc78947759p+1, 0x1.9cbee014057aap+1}, {0x1.9cbee014057aap+1, 0x1.92ee0946f4496p+1},
		{0x1.92ee0946f4496p+1, 0x1.8ab0fbfaa7c14p+1}, {0x1.8ab0fbfaa7c14p+1, 0x1.839030529f233p+1}, {0x1.839030529f233p+1, 0x1.7d42df4d6ce8bp+1}, {0x1.7d42df4d6ce8bp+1, 0x1.7799556090672p+1}, {0x1.7799556090672p+1, 0x1.72728f05f7a33p+1},
		{0x1.72728f05f7a33p+1, 0x1.6db6b8d09e231p+1}, {0x1.6db6b8d09e231p+1, 0x1.69540be9fe5c2p+1}, {0x1.69540be9fe5c2p+1, 0x1.653ce7b006aeap+1}, {0x1.653ce7b006aeap+1, 0x1.61669cf861e4bp+1}, {0x1.61669cf861e4bp+1, 0x1.5dc8a243ad0fep+1},
		{0x1.5dc8a243ad0fep+1, 0x1.5a5c08b718dd9p+1}, {0x1.5a5c08b718dd9p+1, 0x1.571b1a94ae41cp+1}, {0x1.571b1a94ae41cp+1, 0x1.54011523a7e43p+1}, {0x1.54011523a7e43p+1, 0x1.5109f53e9ac42p+1}, {0x1.5109f53e9ac42p+1, 0x1.4e3250dcd8903p+1},
		{0x1.4e3250dcd8903p+1, 0x1.4b7739d6b5a28p+1}, {0x1.4b7739d6b5a28p+1, 0x1.48d62759c43bdp+1}, {0x1.48d62759c43bdp+1, 0x1.464ce44a73a16p+1}, {0x1.464ce44a73a16p+1, 0x1.43d9815545e94p+1}, {0x1.43d9815545e94p+1, 0x1.417a49cb9e5dbp+1},
		{0x1.417a49cb9e5dbp+1, 0x1.3f2dbaa60f475p+1}, {0x1.3f2dbaa60f475p+1, 0x1.3cf27b31704a6p+1}, {0x1.3cf27b31704a6p+1, 0x1.3ac7570ae88fap+1}, {0x1.3ac7570ae88fap+1, 0x1.38ab39256410ap+1}, {0x1.38ab39256410ap+1, 0x1.369d27a33a840p+1},
		{0x1.369d27a33a840p+1, 0x1.349c405ae12a3p+1}, {0x1.349c405ae12a3p+1, 0x1.32a7b5e68a4a3p+1}, {0x1.32a7b5e68a4a3p+1, 0x1.30becd256aeeep+1}, {0x1.30becd256aeeep+1, 0x1.2ee0db1a978f5p+1}, {0x1.2ee0db1a978f5p+1, 0x1.2d0d43196db97p+1},
		{0x1.2d0d43196db97p+1, 0x1.2b437532a0a53p+1}, {0x1.2b437532a0a53p+1, 0x1.2982ecd770e78p+1}, {0x1.2982ecd770e78p+1, 0x1.27cb2faa8592ep+1}, {0x1.27cb2faa8592ep+1, 0x1.261bcc77658e0p+1}, {0x1.261bcc77658e0p+1, 0x1.24745a4ac9c24p+1},
		{0x1.24745a4ac9c24p+1, 0x1.22d477a6fd3efp+1}, {0x1.22d477a6fd3efp+1, 0x1.213bc9d04cc82p+1}, {0x1.213bc9d04cc82p+1, 0x1.1fa9fc2e2d901p+1}, {0x1.1fa9fc2e2d901p+1, 0x1.1e1ebfbe4ae39p+1}, {0x1.1e1ebfbe4ae39p+1, 0x1.1c99ca971a695p+1},
		{0x1.1c99ca971a695p+1, 0x1.1b1ad777f2f8fp+1}, {0x1.1b1ad777f2f8fp+1, 0x1.19a1a564eebadp+1}, {0x1.19a1a564eebadp+1, 0x1.182df74d21262p+1}, {0x1.182df74d21262p+1, 0x1.16bf93b9deef5p+1}, {0x1.16bf93b9deef5p+1, 0x1.1556448602e3dp+1},
		{0x1.1556448602e3dp+1, 0x1.13f1d69c4096fp+1}, {0x1.13f1d69c4096fp+1, 0x1.129219bbb5d37p+1}, {0x1.129219bbb5d37p+1, 0x1.1136e04207043p+1}, {0x1.1136e04207043p+1, 0x1.0fdffefa69fb8p+1}, {0x1.0fdffefa69fb8p+1, 0x1.0e8d4cf116594p+1},
		{0x1.0e8d4cf116594p+1, 0x1.0d3ea34aa3d32p+1}, {0x1.0d3ea34aa3d32p+1, 0x1.0bf3dd1eed449p+1}, {0x1.0bf3dd1eed449p+1, 0x1.0aacd7571c0c5p+1}, {0x1.0aacd7571c0c5p+1, 0x1.0969708e8a255p+1}, {0x1.0969708e8a255p+1, 0x1.082988f632e18p+1},
		{0x1.082988f632e18p+1, 0x1.06ed023a72669p+1}, {0x1.06ed023a72669p+1, 0x1.05b3bf6adb37ep+1}, {0x1.05b3bf6adb37ep+1, 0x1.047da4e3ef5c7p+1}, {0x1.047da4e3ef5c7p+1, 0x1.034a983a902abp+1}, {0x1.034a983a902abp+1, 0x1.021a8028fc947p+1},
		{0x1.021a8028fc947p+1, 0x1.00ed447d3a075p+1}, {0x1.00ed447d3a075p+1, 0x1.ff859c118f60bp+0}, {0x1.ff859c118f60bp+0, 0x1.fd360d22fe785p+0}, {0x1.fd360d22fe785p+0, 0x1.faebb187122bfp+0}, {0x1.faebb187122bfp+0, 0x1.f8a6604899782p+0},
		{0x1.f8a6604899782p+0, 0x1.f665f20c90168p+0}, {0x1.f665f20c90168p+0, 0x1.f42a40fb74d6dp+0}, {0x1.f42a40fb74d6dp+0, 0x1.f1f328ac25321p+0}, {0x1.f1f328ac25321p+0, 0x1.efc086101eca9p+0}, {0x1.efc086101eca9p+0, 0x1.ed9237610a73ap+0},
		{0x1.ed9237610a73ap+0, 0x1.eb681c0f76f08p+0}, {0x1.eb681c0f76f08p+0, 0x1.e94214b2abf09p+0}, {0x1.e94214b2abf09p+0, 0x1.e72002f97fe23p+0}, {0x1.e72002f97fe23p+0, 0x1.e501c99c1d186p+0}, {0x1.e501c99c1d186p+0, 0x1.e2e74c4ea46f3p+0},
		{0x1.e2e74c4ea46f3p+0, 0x1.e0d06fb49d219p+0}, {0x1.e0d06fb49d219p+0, 0x1.debd195522e34p+0}, {0x1.debd195522e34p+0, 0x1.dcad2f8fc490cp+0}, {0x1.dcad2f8fc490cp+0, 0x1.daa0999206e6ep+0}, {0x1.daa0999206e6ep+0, 0x1.d8973f4d7fba4p+0},
		{0x1.d8973f4d7fba4p+0, 0x1.d691096e7f123p+0}, {0x1.d691096e7f123p+0, 0x1.d48de1533c647p+0}, {0x1.d48de1533c647p+0, 0x1.d28db1037ef20p+0}, {0x1.d28db1037ef20p+0, 0x1.d0906328b8f6ep+0}, {0x1.d0906328b8f6ep+0, 0x1.ce95e3068e037p+0},
		{0x1.ce95e3068e037p+0, 0x1.cc9e1c73bd690p+0}, {0x1.cc9e1c73bd690p+0, 0x1.caa8fbd36a2abp+0}, {0x1.caa8fbd36a2abp+0, 0x1.c8b66e0eba617p+0}, {0x1.c8b66e0eba617p+0, 0x1.c6c6608ec8705p+0}, {0x1.c6c6608ec8705p+0, 0x1.c4d8c136e0d1dp+0},
		{0x1.c4d8c136e0d1dp+0, 0x1.c2ed7e5f07a2dp+0}, {0x1.c2ed7e5f07a2dp+0, 0x1.c10486cec16a0p+0}, {0x1.c10486cec16a0p+0, 0x1.bf1dc9b81ae82p+0}, {0x1.bf1dc9b81ae82p+0, 0x1.bd3936b2ec0a2p+0}, {0x1.bd3936b2ec0a2p+0, 0x1.bb56bdb85256ep+0},
		{0x1.bb56bdb85256ep+0, 0x1.b9764f1e5f73dp+0}, {0x1.b9764f1e5f73dp+0, 0x1.b797db93f8928p+0}, {0x1.b797db93f8928p+0, 0x1.b5bb541ce3d04p+0}, {0x1.b5bb541ce3d04p+0, 0x1.b3e0aa0e00c01p+0}, {0x1.b3e0aa0e00c01p+0, 0x1.b207cf09a985cp+0},
		{0x1.b207cf09a985cp+0, 0x1.b030b4fc3a11bp+0}, {0x1.b030b4fc3a11bp+0, 0x1.ae5b4e18bb338p+0}, {0x1.ae5b4e18bb338p+0, 0x1.ac878cd5af5cfp+0}, {0x1.ac878cd5af5cfp+0, 0x1.aab563e9ff10ap+0}, {0x1.aab563e9ff10ap+0, 0x1.a8e4c64a0313fp+0},
		{0x1.a8e4c64a0313fp+0, 0x1.a715a724aa9a7p+0}, {0x1.a715a724aa9a7p+0, 0x1.a547f9e0bbb8bp+0}, {0x1.a547f9e0bbb8bp+0, 0x1.a37bb21a2c85ep+0}, {0x1.a37bb21a2c85ep+0, 0x1.a1b0c39f93696p+0}, {0x1.a1b0c39f93696p+0, 0x1.9fe7226fad24dp+0},
		{0x1.9fe7226fad24dp+0, 0x1.9e1ec2b6f7414p+0}, {0x1.9e1ec2b6f7414p+0, 0x1.9c5798cd5d92ep+0}, {0x1.9c5798cd5d92ep+0, 0x1.9a919933f99c1p+0}, {0x1.9a919933f99c1p+0, 0x1.98ccb892e2a33p+0}, {0x1.98ccb892e2a33p+0, 0x1.9708ebb70d5efp+0},
		{0x1.9708ebb70d5efp+0, 0x1.954627903a28bp+0}, {0x1.954627903a28bp+0, 0x1.9384612ef0afep+0}, {0x1.9384612ef0afep+0, 0x1.91c38dc288349p+0}, {0x1.91c38dc288349p+0, 0x1.9003a2973b591p+0}, {0x1.9003a2973b591p+0, 0x1.8e44951446a28p+0},
		{0x1.8e44951446a28p+0, 0x1.8c865aba10c9dp+0}, {0x1.8c865aba10c9dp+0, 0x1.8ac8e9205c044p+0}, {0x1.8ac8e9205c044p+0, 0x1.890c35f47f72ep+0}, {0x1.890c35f47f72ep+0, 0x1.875036f7a7ec7p+0}, {0x1.875036f7a7ec7p+0, 0x1.8594e1fd1f5bep+0},
		{0x1.8594e1fd1f5bep+0, 0x1.83da2ce899f16p+0}, {0x1.83da2ce899f16p+0, 0x1.82200dac88677p+0}, {0x1.82200dac88677p+0, 0x1.80667a486ea1fp+0}, {0x1.80667a486ea1fp+0, 0x1.7ead68c73dee7p+0}, {0x1.7ead68c73dee7p+0, 0x1.7cf4cf3db22fcp+0},
		{0x1.7cf4cf3db22fcp+0, 0x1.7b3ca3c8b140ap+0}, {0x1.7b3ca3c8b140ap+0, 0x1.7984dc8babd94p+0}, {0x1.7984dc8babd94p+0, 0x1.77cd6faeff44ap+0}, {0x1.77cd6faeff44ap+0, 0x1.7616535e57320p+0}, {0x1.7616535e57320p+0, 0x1.745f7dc70eeddp+0},
		{0x1.745f7dc70eeddp+0, 0x1.72a8e516914c7p+0}, {0x1.72a8e516914c7p+0, 0x1.70f27f78b68ecp+0}, {0x1.70f27f78b68ecp+0, 0x1.6f3c43161f856p+0}, {0x1.6f3c43161f856p+0, 0x1.6d8626128d354p+0}, {0x1.6d8626128d354p+0, 0x1.6bd01e8b343bdp+0},
		{0x1.6bd01e8b343bdp+0, 0x1.6a1a22950b2b3p+0}, {0x1.6a1a22950b2b3p+0, 0x1.6864283b13139p+0}, {0x1.6864283b13139p+0, 0x1.66ae257c99674p+0}, {0x1.66ae257c99674p+0, 0x1.64f8104b7260dp+0}, {0x1.64f8104b7260dp+0, 0x1.6341de8a2b0a4p+0},
		{0x1.6341de8a2b0a4p+0, 0x1.618b860a31fc5p+0}, {0x1.618b860a31fc5p+0, 0x1.5fd4fc89f5e39p+0}, {0x1.5fd4fc89f5e39p+0, 0x1.5e1e37b2f8cd4p+0}, {0x1.5e1e37b2f8cd4p+0, 0x1.5c672d17d733fp+0}, {0x1.5c672d17d733fp+0, 0x1.5aafd23241b5ap+0},
		{0x1.5aafd23241b5ap+0, 0x1.58f81c60e8515p+0}, {0x1.58f81c60e8515p+0, 0x1.574000e555f79p+0}, {0x1.574000e555f79p+0, 0x1.558774e1bb2c9p+0}, {0x1.558774e1bb2c9p+0, 0x1.53ce6d56a6650p+0}, {0x1.53ce6d56a6650p+0, 0x1.5214df20a8b5cp+0},
		{0x1.5214df20a8b5cp+0, 0x1.505abef5e5563p+0}, {0x1.505abef5e5563p+0, 0x1.4ea001638a606p+0}, {0x1.4ea001638a606p+0, 0x1.4ce49acb311ddp+0}, {0x1.4ce49acb311ddp+0, 0x1.4b287f602415ep+0}, {0x1.4b287f602415ep+0, 0x1.496ba32488f30p+0},
		{0x1.496ba32488f30p+0, 0x1.47adf9e66c338p+0}, {0x1.47adf9e66c338p+0, 0x1.45ef773cac75ep+0}, {0x1.45ef773cac75ep+0, 0x1.44300e83c30a6p+0}, {0x1.44300e83c30a6p+0, 0x1.426fb2da6745fp+0}, {0x1.426fb2da6745fp+0, 0x1.40ae571e09e76p+0},
		{0x1.40ae571e09e76p+0, 0x1.3eebede725a85p+0}, {0x1.3eebede725a85p+0, 0x1.3d28698561de3p+0}, {0x1.3d28698561de3p+0, 0x1.3b63bbfb83d06p+0}, {0x1.3b63bbfb83d06p+0, 0x1.399dd6fb2b267p+0}, {0x1.399dd6fb2b267p+0, 0x1.37d6abe05586cp+0},
		{0x1.37d6abe05586cp+0, 0x1.360e2baca52d7p+0}, {0x1.360e2baca52d7p+0, 0x1.3444470265ea4p+0}, {0x1.3444470265ea4p+0, 0x1.3278ee1f4b933p+0}, {0x1.3278ee1f4b933p+0, 0x1.30ac10d6e48dap+0}, {0x1.30ac10d6e48dap+0, 0x1.2edd9e8cba990p+0},
		{0x1.2edd9e8cba990p+0, 0x1.2d0d862e1b855p+0}, {0x1.2d0d862e1b855p+0, 0x1.2b3bb62b82edbp+0}, {0x1.2b3bb62b82edbp+0, 0x1.29681c719d71dp+0}, {0x1.29681c719d71dp+0, 0x1.2792a661dd381p+0}, {0x1.2792a661dd381p+0, 0x1.25bb40ca96bfep+0},
		{0x1.25bb40ca96bfep+0, 0x1.23e1d7de9c322p+0}, {0x1.23e1d7de9c322p+0, 0x1.2206572c4c6ecp+0}, {0x1.2206572c4c6ecp+0, 0x1.2028a9940a0a3p+0}, {0x1.2028a9940a0a3p+0, 0x1.1e48b93e0d431p+0}, {0x1.1e48b93e0d431p+0, 0x1.1c666f8f82acfp+0},
		{0x1.1c666f8f82acfp+0, 0x1.1a81b51ee6d8bp+0}, {0x1.1a81b51ee6d8bp+0, 0x1.189a71a78da37p+0}, {0x1.189a71a78da37p+0, 0x1.16b08bfc42020p+0}, {0x1.16b08bfc42020p+0, 0x1.14c3e9f8e9143p+0}, {0x1.14c3e9f8e9143p+0, 0x1.12d4707310fc1p+0},
		{0x1.12d4707310fc1p+0, 0x1.10e20329515f1p+0}, {0x1.10e20329515f1p+0, 0x1.0eec84b16086fp+0}, {0x1.0eec84b16086fp+0, 0x1.0cf3d664bcc83p+0}, {0x1.0cf3d664bcc83p+0, 0x1.0af7d84bc6116p+0}, {0x1.0af7d84bc6116p+0, 0x1.08f869071f40fp+0},
		{0x1.08f869071f40fp+0, 0x1.06f565b72a014p+0}, {0x1.06f565b72a014p+0, 0x1.04eea9e16a5ffp+0}, {0x1.04eea9e16a5ffp+0, 0x1.02e40f5398f9dp+0}, {0x1.02e40f5398f9dp+0, 0x1.00d56e04234eep+0}, {0x1.00d56e04234eep+0, 0x1.fd8537dfa2eb1p-1},
		{0x1.fd8537dfa2eb1p-1, 0x1.f956d9e87d7b2p-1}, {0x1.f956d9e87d7b2p-1, 0x1.f51f654d8f68cp-1}, {0x1.f51f654d8f68cp-1, 0x1.f0de784f0622ap-1}, {0x1.f0de784f0622ap-1, 0x1.ec93abdf982d2p-1}, {0x1.ec93abdf982d2p-1, 0x1.e83e9337a6f04p-1},
		{0x1.e83e9337a6f04p-1, 0x1.e3debb5d2ee02p-1}, {0x1.e3debb5d2ee02p-1, 0x1.df73aa9f17656p-1}, {0x1.df73aa9f17656p-1, 0x1.dafce0023b8c8p-1}, {0x1.dafce0023b8c8p-1, 0x1.d679d29e41f14p-1}, {0x1.d679d29e41f14p-1, 0x1.d1e9f0e80b74bp-1},
		{0x1.d1e9f0e80b74bp-1, 0x1.cd4c9fe72268fp-1}, {0x1.cd4c9fe72268fp-1, 0x1.c8a13a5323b66p-1}, {0x1.c8a13a5323b66p-1, 0x1.c3e70f9594ef8p-1}, {0x1.c3e70f9594ef8p-1, 0x1.bf1d62abf8239p-1}, {0x1.bf1d62abf8239p-1, 0x1.ba4368e529f40p-1},
		{0x1.ba4368e529f40p-1, 0x1.b558487427a2fp-1}, {0x1.b558487427a2fp-1, 0x1.b05b16d136ca2p-1}, {0x1.b05b16d136ca2p-1, 0x1.ab4ad6e101636p-1}, {0x1.ab4ad6e101636p-1, 0x1.a62676d77cd5fp-1}, {0x1.a62676d77cd5fp-1, 0x1.a0eccdca4a731p-1},
		{0x1.a0eccdca4a731p-1, 0x1.9b9c98e38c54dp-1}, {0x1.9b9c98e38c54dp-1, 0x1.96347822c1ef0p-1}, {0x1.96347822c1ef0p-1, 0x1.90b2ea94ecf9ep-1}, {0x1.90b2ea94ecf9ep-1, 0x1.8b1649e7b769fp-1}, {0x1.8b1649e7b769fp-1, 0x1.855cc53430a7dp-1},
		{0x1.855cc53430a7dp-1, 0x1.7f845ad46f549p-1}, {0x1.7f845ad46f549p-1, 0x1.798ad10b32a7ep-1}, {0x1.798ad10b32a7ep-1, 0x1.736dad346f8adp-1}, {0x1.736dad346f8adp-1, 0x1.6d2a292000576p-1}, {0x1.6d2a292000576p-1, 0x1.66bd261a37c44p-1},
		{0x1.66bd261a37c44p-1, 0x1.60231cfd97ef1p-1}, {0x1.60231cfd97ef1p-1, 0x1.59580a707ce9cp-1}, {0x1.59580a707ce9cp-1, 0x1.52575621ad379p-1}, {0x1.52575621ad379p-1, 0x1.4b1bb363dfeadp-1}, {0x1.4b1bb363dfeadp-1, 0x1.439ef8dff9b5ap-1},
		{0x1.439ef8dff9b5ap-1, 0x1.3bd9ec1a2b134p-1}, {0x1.3bd9ec1a2b134p-1, 0x1.33c3fc05791fap-1}, {0x1.33c3fc05791fap-1, 0x1.2b52e3863d885p-1}, {0x1.2b52e3863d885p-1, 0x1.227a28f7a1afap-1}, {0x1.227a28f7a1afap-1, 0x1.192a69741367dp-1},
		{0x1.192a69741367dp-1, 0x1.0f5053b025d4ap-1}, {0x1.0f5053b025d4ap-1, 0x1.04d32278ebbb4p-1}, {0x1.04d32278ebbb4p-1, 0x1.f32482d4cd5d0p-2}, {0x1.f32482d4cd5d0p-2, 0x1.dac2f5a747281p-2}, {0x1.dac2f5a747281p-2, 0x1.c004d2f386207p-2},
		{0x1.c004d2f386207p-2, 0x1.a230c2e4cd0cbp-2}, {0x1.a230c2e4cd0cbp-2, 0x1.801fce82fa71ap-2}, {0x1.801fce82fa71ap-2, 0x1.57cb938443b71p-2}, {0x1.57cb938443b71p-2, 0x1.250af3c2c5bc6p-2}, {0x1.250af3c2c5bc6p-2, 0x1.b8d0be3fdf702p-3},
		{0x1.b8d0be3fdf702p-3, 0x0.0p+0},
	}[i]
	return layer.outer, layer.inner
}
